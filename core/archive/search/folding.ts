/**
 * Text cut into words as the text index cuts and folds it: small letters, without signs on them, split at what is no part
 * of a word. How it treats a letter is asked of the index itself, once, so that a word kept beside an entry and the same
 * word in the index can't differ.
 */
import Database from 'better-sqlite3';
import { z } from 'zod';

/** Signs that are part of a word besides letters and digits. */
const WORD_SIGNS = '-./_#+:&';
export const TOKENIZE = `tokenize="unicode61 remove_diacritics 2 tokenchars '${WORD_SIGNS}'"`;

const PLAIN = /^[\0-\x7f]*$/;
/** Half of a pair of surrogates: no letter, and the database would be given a sign in its place. */
const HALF_A_PAIR = /\p{Cs}/gu;
const PLAIN_WORD = /[a-z0-9\-./_#+:&]+/g;

interface Letter {
  /** What it becomes within a word; null where a word ends at it. */
  readonly folded: string | null;
  /** A sign that is set on a letter is part of a word but begins none. */
  readonly begins: boolean;
}

const letters = new Map<string, Letter>();

/** The words of a text in their order, folded. */
export function foldedWords(text: string): string[] {
  if (PLAIN.test(text)) return text.toLowerCase().match(PLAIN_WORD) ?? [];
  const signs = Array.from(text.replace(HALF_A_PAIR, ' '));
  askFor(signs);
  const words: string[] = [];
  let word: string | null = null;
  for (const sign of signs) {
    const { folded, begins } = letters.get(sign) ?? SEPARATOR;
    if (folded !== null && (word !== null || begins)) word = (word ?? '') + folded;
    else if (word !== null) {
      words.push(word);
      word = null;
    }
  }
  return word === null ? words : [...words, word];
}

const SEPARATOR: Letter = { folded: null, begins: false };
let index: Database.Database | null = null;

function askFor(signs: readonly string[]): void {
  const unknown = [...new Set(signs)].filter((sign) => !letters.has(sign));
  if (unknown.length === 0) return;
  index ??= emptyIndex();
  const put = index.prepare('INSERT INTO asked (text) VALUES (?)');
  index.exec('BEGIN; DELETE FROM asked');
  // Alone, and within a word: two words there, or none alone, tell what it is.
  for (const sign of unknown) {
    put.run(sign);
    put.run(`a${sign}a`);
  }
  index.exec('COMMIT');
  const words = new Map<number, string[]>();
  for (const row of index.prepare('SELECT doc, term FROM word ORDER BY doc, offset').all()) {
    const { doc, term } = wordRow.parse(row);
    words.set(doc, [...(words.get(doc) ?? []), term]);
  }
  unknown.forEach((sign, i) => {
    const alone = words.get(2 * i + 1) ?? [];
    const [within = '', ...more] = words.get(2 * i + 2) ?? [];
    letters.set(
      sign,
      more.length > 0 ? SEPARATOR : { folded: within.slice(1, -1), begins: alone.length === 1 },
    );
  });
}

const wordRow = z.object({ doc: z.number(), term: z.string() });

function emptyIndex(): Database.Database {
  const made = new Database(':memory:');
  made.exec(`CREATE VIRTUAL TABLE asked USING fts5(text, ${TOKENIZE});
    CREATE VIRTUAL TABLE word USING fts5vocab(asked, instance);`);
  return made;
}
