/** The search index made in the background: in steps, newest first, answering meanwhile, gone on with after an end. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import { goOn, indexProgress, isWhole, requireIndex, tidy } from '../../../core/archive/search/make-index.ts';
import { foundPullIds } from '../../../core/archive/search/search.ts';
import { NEWEST_FIRST } from '../../../core/contract/search-requests.ts';
import { END, SPECIMEN, batch, newPull, openArchive, scratchFolder } from './made-archive.ts';

const PULLS = 50;
/** So that this archive counts as a large one. */
const AT_ONCE = 10;

const found = (archive: Archive, text: string): number[] =>
  archive.sets((connection) => [...foundPullIds(connection, { query: { text }, order: NEWEST_FIRST })]);

test('a large archive without an index is filled newest first, and what is said meanwhile is found at once', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const { connection } = archive;
  const specimenId = archive.saveSpecimen({ specimen: SPECIMEN });
  connection
    .transaction(() => {
      for (let i = 0; i < PULLS; i++)
        archive.closePull(batch(archive.beginPull(newPull(specimenId, { operator: 'Okafor' }))), END);
    })
    .immediate();
  const search = () => archive.check({}).lines.find((line) => line.name === 'search');
  // As an archive of an earlier form comes out of its migration.
  connection.exec('DROP TABLE search_form');
  requireIndex(connection, AT_ONCE);
  expect(indexProgress(connection)).toEqual({ made: 0, of: PULLS });
  expect(found(archive, 'okafor')).toEqual([]);
  expect(search(), 'one that is being made is no damage').toMatchObject({ ok: true });

  const made = goOn(connection, 0)?.made ?? 0;
  expect(made, 'a step is never in vain').toBeGreaterThan(0);
  expect(found(archive, 'okafor')).toEqual(Array.from({ length: made }, (_, i) => PULLS - i));

  // Of a pull that no step has reached yet.
  archive.noteFracture({ pullId: 3, note: { place: 'base-metal', remarks: 'porosity' } });
  expect(found(archive, 'porosity')).toEqual([3]);

  // The program ended and was started again: nothing of what was made is made a second time.
  requireIndex(connection, AT_ONCE);
  expect(indexProgress(connection)).toEqual({ made: made + 1, of: PULLS });
  while (goOn(connection, 0) !== null);
  expect(isWhole(connection)).toBe(true);
  const parts = connection.prepare('SELECT count(DISTINCT segid) FROM search_text_idx').pluck();
  let steps = 0;
  while (tidy(connection, steps === 0)) expect(++steps).toBeLessThan(200);
  expect(parts.get()).toBe(1);
  expect(found(archive, 'okafor')).toHaveLength(PULLS);
  expect(found(archive, 'porosity')).toEqual([3]);
  expect(search()).toMatchObject({ ok: true, words: expect.stringContaining(String(PULLS)) as string });
});
