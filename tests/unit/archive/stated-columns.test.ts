/** Yield and elongation as columns of a list: what is stated of a pull, never worked out for a list. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import { keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { keepFirstStated } from '../../../core/archive/keep-first-stated.ts';
import { mergeArchive } from '../../../core/archive/merge-archive.ts';
import { makeAnew } from '../../../core/archive/search/make-index.ts';
import { searchPulls } from '../../../core/archive/search/search.ts';
import type { KeptValue } from '../../../core/contract/evaluation-requests.ts';
import type { SearchOrder } from '../../../core/contract/search-requests.ts';
import { SPECIMEN, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const stress = (symbol: string, value: number): KeptValue => ({ symbol, value, unit: 'MPa' });
const percent = (symbol: string, value: number): KeptValue => ({ symbol, value, unit: '%' });

const state = (archive: Archive, pullId: number, values: readonly KeptValue[]): boolean =>
  archive.sets((connection, keeping) =>
    keepFirstStated(
      connection,
      { pullId, specimenId: archive.newestSpecimenOfPull(pullId).specimenId, values, methodVersion: '3' },
      keeping,
    ),
  );
const found = (archive: Archive, order: SearchOrder = { by: 'kept', descending: false }) =>
  archive
    .sets((connection) => searchPulls(connection, { query: {}, order, limit: 50 }))
    .items.map((one) => [one.pullId, one.yieldMpa, one.elongationPercent]);
const searchIsSound = (archive: Archive) => archive.check({}).lines.find(({ name }) => name === 'search')?.ok;

test('they are what is stated: first worked out, then kept; nothing by sizes that were corrected since', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const [first, second, third] = [keptPull(archive), keptPull(archive), keptPull(archive)];
  expect(found(archive)).toEqual([
    [first, null, null],
    [second, null, null],
    [third, null, null],
  ]);
  // The one that rules compare first, wherever it stands among the others.
  state(archive, first, [stress('ReH', 420), stress('Rp0.2', 410), percent('A', 21.5), percent('At', 30)]);
  // In the unit in which it was worked out: 60 ksi are 413.685 MPa (NIST SP 811, B.8).
  state(archive, third, [{ symbol: 'Rt0.5', value: 60, unit: 'ksi' }]);
  const ksi60 = expect.closeTo(413.685, 2) as number;
  expect(found(archive)).toEqual([
    [first, 410, 21.5],
    [second, null, null],
    [third, ksi60, null],
  ]);
  // What has nothing there comes last, whichever way.
  expect(found(archive, { by: 'yield', descending: true }).map(([id]) => id)).toEqual([third, first, second]);
  expect(found(archive, { by: 'yield', descending: false }).map(([id]) => id)).toEqual([
    first,
    third,
    second,
  ]);
  expect(found(archive, { by: 'elongation', descending: true })[0]).toEqual([first, 410, 21.5]);
  // What a person keeps takes its place, also where it gives no elongation.
  const { specimenId } = archive.getPull(first);
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      {
        pullId: first,
        specimenId,
        options: {},
        sources: [],
        values: [stress('Rp0.2', 398)],
        methodVersion: '3',
        supersedes: null,
        reason: 'window dragged',
      },
      keeping,
    ),
  );
  expect(found(archive)[0]).toEqual([first, 398, null]);
  archive.saveSpecimen({
    specimen: { ...SPECIMEN, geometry: { kind: 'flat', width: '19.05 mm', thickness: '6.1 mm' } },
    supersedes: archive.getPull(third).specimenId,
    reason: 'misread',
  });
  expect(found(archive)[2]).toEqual([third, null, null]);
  expect(searchIsSound(archive)).toBe(true);
  const before = found(archive);
  makeAnew(archive.connection);
  expect(found(archive)).toEqual(before);
});

test('an elongation that nobody worked out yet is what the halves give', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  // (61 mm − 50 mm) / 50 mm: ISO 6892-1, percentage elongation after fracture.
  const specimen = { ...SPECIMEN, finalGaugeLength: '61 mm' };
  const pullId = keptPull(archive, 5, 20, archive.saveSpecimen({ specimen }));
  expect(found(archive)).toEqual([[pullId, null, expect.closeTo(22, 9)]]);
});

test('an index of the form before it is made anew with them, and a merge takes them along', () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = keptPull(archive);
  state(archive, pullId, [stress('Rp0.2', 410), percent('A', 20)]);
  // As the program before left it: without these columns.
  archive.connection.exec(`DROP TRIGGER search_entry_stated; DROP TRIGGER search_entry_put_in;
    UPDATE search_form SET form = 11; ALTER TABLE search_entry DROP COLUMN yield_mpa;
    DROP INDEX search_value_by_yield; ALTER TABLE search_value DROP COLUMN yield;`);
  archive.close();
  const again = openArchive(path);
  expect(found(again)).toEqual([[pullId, 410, 20]]);
  expect(searchIsSound(again)).toBe(true);

  const other = openArchive(join(folder, 'b.gaugemark'));
  keptPull(other, 3, 10);
  const ends = (one: Archive) => ({ connection: one.connection });
  expect([...mergeArchive({ ...ends(other), wallMs: 1 }, ends(again), true)]).toHaveLength(1);
  expect(found(other)).toEqual([
    [1, null, null],
    [2, 410, 20],
  ]);
  expect(searchIsSound(other)).toBe(true);
});
