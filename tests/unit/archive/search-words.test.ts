/** Words kept beside an entry against those of the text index (SQLite's FTS5), which is the measure of what is found. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Sought,
  type Written,
  asMatch,
  conditionOf,
  isWrittenIn,
} from '../../../core/archive/search/condition.ts';
import { TOKENIZE, foldedWords } from '../../../core/archive/search/folding.ts';
import { END, SPECIMEN, batch, newPull, openArchive, scratchFolder } from './made-archive.ts';

function wordsOfIndex(text: string): string[] {
  const index = new Database(':memory:');
  index.exec(
    `CREATE VIRTUAL TABLE t USING fts5(x, ${TOKENIZE}); CREATE VIRTUAL TABLE v USING fts5vocab(t, instance)`,
  );
  index.prepare('INSERT INTO t (x) VALUES (?)').run(text);
  const words = index.prepare('SELECT term FROM v ORDER BY offset').pluck().all();
  index.close();
  return words.map(String);
}

describe('folded words', () => {
  test.each([
    ['Muñoz, Ärger (PQR-12/3)', ['munoz', 'arger', 'pqr-12/3']],
    ["isn't a+b:c", ['isn', 't', 'a+b:c']],
    ['Ωß İ ﬁ ́a e\u0301', ['ωß', 'i', 'ﬁ', 'a', 'e']],
    ['溶接 😀\ud800x\u0000y', ['溶接', 'x', 'y']],
    ['', []],
  ])('%s', (text, words) => {
    expect(foldedWords(text)).toEqual(words);
  });

  test('of any text are those of the index, and folded once more they stay', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 30 }),
      fc.string({ unit: fc.constantFrom(...Array.from('aÄñ\u0301ß\'"-./_#+:& ,(İﬁ\n')), maxLength: 30 }),
    );
    fc.assert(
      fc.property(text, (one) => {
        const words = foldedWords(one);
        // The database ends a text that a program reads at a NUL; the index does not.
        expect(words).toEqual(wordsOfIndex(one));
        expect(foldedWords(words.join(' '))).toEqual(words);
      }),
      { numRuns: 200 },
    );
  });
});

const WORDS = [
  'Muñoz',
  'munoza',
  'ÅRHUS',
  'arhus-7',
  "O'Brien",
  'PQR-12/3',
  '"quoted"',
  'E7018',
  'a',
  'ab',
  'Ab,cd',
  '溶接',
];

test('a word is written of the pulls that the text index finds by it', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  for (let i = 0; i < 40; i++) {
    const notes = [WORDS[i % WORDS.length], WORDS[(i * 5 + 3) % WORDS.length]].join(i % 2 === 0 ? ' ' : ', ');
    const specimenId = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: `T-${String(i % 9)}`, notes } });
    const pullId = archive.beginPull(newPull(specimenId, { operator: WORDS[(i * 7) % 5] ?? null }));
    archive.closePull(batch(pullId), END);
  }
  archive.sets((connection) => {
    const found = connection
      .prepare('SELECT rowid FROM search_text WHERE search_text MATCH ? ORDER BY rowid')
      .pluck();
    const written = connection
      .prepare(
        'SELECT pull_id, words, set_names, rules, base_metal, filler FROM search_entry ORDER BY pull_id',
      )
      .all() as (Written & { pull_id: number })[];
    const holding = (sought: readonly Sought[]): number[] =>
      written.filter((one) => sought.every((word) => isWrittenIn(word, one))).map((one) => one.pull_id);
    const typed = fc.oneof(
      fc.constantFrom(...WORDS, 'T-1', 'neverwritten'),
      fc.tuple(fc.constantFrom(...WORDS), fc.nat(5)).map(([word, length]) => word.slice(0, length)),
      fc.string({ unit: fc.constantFrom(...Array.from('aÅñ"*-(),:^ ')), maxLength: 6 }),
    );
    fc.assert(
      fc.property(typed, (text) => {
        const { words } = conditionOf({ text });
        if (words.length > 0) expect(holding(words)).toEqual(found.all(asMatch(words)));
      }),
      { numRuns: 300 },
    );
    // What was typed, put to the index as a person would have to write it there.
    for (const word of WORDS) {
      const match = `"${word.replace(/^"|"$/g, '').replaceAll('"', '""')}"${word.length > 1 ? ' *' : ''}`;
      const expected = found.all(match);
      expect(expected.length, word).toBeGreaterThan(0);
      expect(holding(conditionOf({ text: word }).words)).toEqual(expected);
    }
  });
});
