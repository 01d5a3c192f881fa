/** Words kept beside an entry against those of the text index (SQLite's FTS5), which is the measure of what is found. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asMatch, asTest, conditionOf } from '../../../core/archive/search/condition.ts';
import { TOKENIZE, foldedWords } from '../../../core/archive/search/folding.ts';
import { searchPulls } from '../../../core/archive/search/search.ts';
import {
  SEARCH_COLUMNS,
  type SearchOrder,
  type SearchQuery,
  searchQuery,
} from '../../../core/contract/search-requests.ts';
import { END, SPECIMEN, WALL_MS, batch, newPull, openArchive, scratchFolder } from './made-archive.ts';

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

function madeArchive() {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  for (let i = 0; i < 40; i++) {
    const notes = [WORDS[i % WORDS.length], WORDS[(i * 5 + 3) % WORDS.length], i % 4 === 0 ? 'undercut' : 'x']
      .join(i % 2 === 0 ? ' ' : ', ')
      .slice(0, 200);
    const specimenId = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: `T-${String(i % 9)}`, notes } });
    const pullId = archive.beginPull(
      newPull(specimenId, {
        operator: WORDS[(i * 7) % 5] ?? null,
        startedWallMs: WALL_MS + (i % 6) * 86_400_000,
      }),
    );
    archive.closePull(batch(pullId), { ...END, peakForceN: 20_000 + ((i * 7919) % 13) * 4_000 });
    if (i % 3 > 0)
      archive.noteFracture({ pullId, note: { place: i % 3 === 1 ? 'weld-metal' : 'base-metal' } });
  }
  return archive;
}

test('a page in the order of a column is what the text index finds, whichever way it is gone about', () => {
  const archive = madeArchive();
  const typed = fc
    .array(
      fc.oneof(
        fc.constantFrom(...WORDS, 'undercut', 'T-1', 'weld', 'neverwritten'),
        fc
          .tuple(fc.constantFrom(...WORDS, 'undercut'), fc.nat(5))
          .map(([word, length]) => word.slice(0, length)),
        fc.string({ unit: fc.constantFrom(...Array.from('aÅñ"*-(),:^ ')), maxLength: 6 }),
      ),
      { minLength: 1, maxLength: 3 },
    )
    .map((words) => words.join(' '))
    .filter((text) => text.trim() !== '');
  const asked = fc.record(
    {
      text: typed,
      broke: fc.constantFrom('weld-metal', 'base-metal'),
      geometry: fc.constantFrom('flat', 'round'),
      voided: fc.boolean(),
      questionable: fc.constant(false),
      fromDay: fc.constantFrom('2026-03-05', '2026-03-06'),
      strengthMinMpa: fc.double({ min: 150, max: 600, noNaN: true }),
      filler: typed,
    },
    { requiredKeys: [] },
  );
  const orders = fc.record({
    by: fc.constantFrom(...SEARCH_COLUMNS),
    descending: fc.boolean(),
  });
  archive.sets((connection) => {
    const idsOf = (sql: string, ...values: (string | number)[]): number[] =>
      connection
        .prepare(sql)
        .pluck()
        .all(...values)
        .map(Number);
    fc.assert(
      fc.property(asked, orders, (given, order) => {
        const query: SearchQuery = searchQuery.parse(given);
        const condition = conditionOf(connection, query);
        if (condition !== null) {
          const { sql, values } = asTest(condition);
          expect(
            idsOf(`SELECT pull_id FROM search_entry e WHERE ${sql} ORDER BY pull_id`, ...values),
          ).toEqual(
            idsOf(
              'SELECT rowid FROM search_text WHERE search_text MATCH ? ORDER BY rowid',
              asMatch(condition),
            ),
          );
        }
        expect(pages(connection, query, order, { lookedUpMax: 0, tested: [3, 50] })).toEqual(
          pages(connection, query, order, { lookedUpMax: 100, tested: [] }),
        );
      }),
      { numRuns: 100 },
    );
    // What was typed, put to the index as a person would have to write it there.
    for (const word of [...WORDS, 'undercut', 'weld']) {
      const match = `"${word.replace(/^"|"$/g, '').replaceAll('"', '""')}"${word.length > 1 ? ' *' : ''}`;
      const { sql, values } = asTest(conditionOf(connection, { text: word }) ?? { kind: 'all', of: [] });
      const expected = idsOf('SELECT rowid FROM search_text WHERE search_text MATCH ? ORDER BY rowid', match);
      expect(expected.length, word).toBeGreaterThan(0);
      expect(idsOf(`SELECT pull_id FROM search_entry e WHERE ${sql} ORDER BY pull_id`, ...values)).toEqual(
        expected,
      );
    }
  });
});

function pages(
  connection: Parameters<typeof searchPulls>[0],
  query: SearchQuery,
  order: SearchOrder,
  limits: Parameters<typeof searchPulls>[2],
): number[] {
  const ids: number[] = [];
  let after: string | undefined;
  do {
    const page = searchPulls(connection, { query, order, limit: 4, after }, limits);
    ids.push(...page.items.map((one) => one.pullId));
    after = page.next ?? undefined;
  } while (after !== undefined);
  return ids;
}
