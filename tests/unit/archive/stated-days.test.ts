/** The day that a person states of an imported pull: beside the record, for filter, order, split and merge, never in place of it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import { checkChain } from '../../../core/archive/audit.ts';
import { type ImportPull, importPull } from '../../../core/archive/import-store.ts';
import { mergeArchive } from '../../../core/archive/merge-archive.ts';
import { searchPulls } from '../../../core/archive/search/search.ts';
import { planSplit } from '../../../core/archive/split-archive.ts';
import { type StateDay, stateDay } from '../../../core/archive/stated-day-store.ts';
import { NEWEST_FIRST, type SearchOrder, type SearchQuery } from '../../../core/contract/search-requests.ts';
import { settlePlan } from '../../../core/exchange/import/import-bytes.ts';
import { SPECIMEN, WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const BY_DATE: SearchOrder = { by: 'started', descending: false };

/** A file of its own each time: the same bytes are taken once. */
function imported(
  archive: Archive,
  force: number,
  pulledOn?: string,
  over: Partial<ImportPull> = {},
): number {
  const bytes = Buffer.from(`time_s,force_kN\n0,0\n1,${String(force)}\n2,${String(force + 1)}\n`);
  const plan = settlePlan(bytes, true);
  if (!plan.ok) throw new Error(plan.fault.sentence);
  return archive.sets((connection, { programVersion }) =>
    importPull(
      { connection, programVersion },
      {
        file: `${String(force)}.csv`,
        bytes,
        plan: plan.plan,
        specimenId: archive.saveSpecimen({ specimen: SPECIMEN }),
        operator: 'Quintero',
        startedWallMs: WALL_MS,
        startedUtcOffsetMinutes: 120,
        startedMonotonicUs: 1,
        boot: 'b',
        pulledOn,
        ...over,
      },
    ),
  ).pullId;
}

const stated = (archive: Archive, given: StateDay, wallMs = WALL_MS + 5): number =>
  archive.sets((connection) => stateDay(connection, given, wallMs));

const found = (archive: Archive, query: SearchQuery, order: SearchOrder = BY_DATE): number[] =>
  archive
    .sets((connection) => searchPulls(connection, { query, order, limit: 50 }))
    .items.map(({ pullId }) => pullId);

const ends = (archive: Archive): Pick<Archive, 'connection'> => ({
  connection: archive.connection,
});

it('is what the pull is found, sorted and split by; the record keeps the moment of its import', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const recorded = keptPull(archive);
  const undated = imported(archive, 10);
  const of2019 = imported(archive, 20, '2019-05-14');
  const timed = imported(archive, 30, '2019-05-14T00:30');
  // Before 1970 a moment is below zero.
  const of1931 = imported(archive, 40, '1931-02-28');
  expect(archive.getPull(of2019)).toMatchObject({
    startedWallMs: WALL_MS,
    pulledOn: '2019-05-14',
    statedDays: [{ pulledOn: '2019-05-14', by: 'Quintero', wallMs: WALL_MS, supersedes: null }],
  });
  expect(archive.getPull(undated)).toMatchObject({ pulledOn: null, statedDays: [] });
  const day = { fromDay: '2019-05-14', toDay: '2019-05-14' };
  expect(found(archive, day)).toEqual([of2019, timed]);
  expect(found(archive, { fromDay: '2026-03-04', toDay: '2026-03-04' })).toEqual([recorded, undated]);
  expect(found(archive, { toDay: '1970-01-01' })).toEqual([of1931]);
  expect(found(archive, {})).toEqual([of1931, of2019, timed, recorded, undated]);
  // Newest first is the order of recording: the import came last.
  expect(found(archive, {}, NEWEST_FIRST)).toEqual([of1931, timed, of2019, undated, recorded]);
  expect(found(archive, { text: '2019-05-14' })).toEqual([of2019, timed]);
  expect(planSplit(archive.connection).parts.map(({ year, pullIds }) => [year, pullIds] as const)).toEqual([
    [1931, [of1931]],
    [2019, [of2019, timed]],
    [2026, [recorded, undated]],
  ]);
  expect(archive.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
});

it('is corrected by another statement with its reason, which stays beside the one before', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const pullId = imported(archive, 10, '2019-05-14');
  expect(() => stated(archive, { pullId, pulledOn: '2018-05-14' })).toThrow(/needs its reason/);
  stated(archive, { pullId, pulledOn: '2018-05-14', by: 'Abel', reason: 'year on the report' });
  expect(archive.getPull(pullId)).toMatchObject({
    pulledOn: '2018-05-14',
    statedDays: [{ pulledOn: '2019-05-14' }, { pulledOn: '2018-05-14', by: 'Abel', supersedes: 1 }],
  });
  expect(found(archive, { toDay: '2018-12-31' })).toEqual([pullId]);
  expect(found(archive, { fromDay: '2019-01-01' })).toEqual([]);
  expect(found(archive, { text: 'report' })).toEqual([pullId]);
  for (const sql of ["UPDATE stated_day SET pulled_on = '2017-01-01'", 'DELETE FROM stated_day'])
    expect(() => archive.connection.exec(sql)).toThrow(/rows of stated_day are never/);
  expect(checkChain(archive.connection).brokenAt).toBeNull();
});

it('is none of a recorded pull, none that lies ahead, and then no file is kept', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const recorded = keptPull(archive);
  expect(() => stated(archive, { pullId: recorded, pulledOn: '2019-05-14' })).toThrow(/on its own record/);
  // Tomorrow may be today at another place; the day after is nowhere.
  imported(archive, 10, '2026-03-05');
  expect(() => imported(archive, 20, '2026-03-06')).toThrow(/2026-03-06 lies ahead/);
  expect(archive.connection.prepare('SELECT count(*) FROM pull').pluck().get()).toBe(2);
});

it('goes along in a merge, is added where it was stated later, and a conflict where both say another', () => {
  const folder = scratchFolder();
  const there = openArchive(join(folder, 'there.gaugemark'));
  const here = openArchive(join(folder, 'here.gaugemark'));
  const merged = (): (string | undefined)[] =>
    [...mergeArchive({ ...ends(here), wallMs: 1 }, ends(there), true)].map(({ words }) => words);
  const first = imported(there, 10, '2019-05-14');
  const second = imported(there, 20);
  merged();
  expect(here.getPull(1).statedDays).toEqual(there.getPull(first).statedDays);
  stated(there, { pullId: second, pulledOn: '2020-01-02' });
  expect(merged()[1]).toMatch(/added: stated days 1$/);
  expect(found(here, { toDay: '2020-12-31' })).toEqual([1, 2]);
  stated(there, { pullId: second, pulledOn: '2020-01-03', reason: 'a' });
  stated(here, { pullId: 2, pulledOn: '2020-01-04', reason: 'b' });
  expect(merged()[1]).toMatch(/said otherwise in both and left as it is here: stated days/);
  expect(here.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
});

it('is in the documented query as plain SQLite reads it', () => {
  const [, query = ''] =
    /-- the day of each pull[^\n]*\n([^;]*);/.exec(
      readFileSync(new URL('../../../DEVELOPERS.md', import.meta.url), 'utf8'),
    ) ?? [];
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  keptPull(archive);
  imported(archive, 10, '2019-05-14T10:30');
  expect(archive.connection.prepare(query).raw().all()).toEqual([
    [1, '2026-03-04'],
    [2, '2019-05-14'],
  ]);
});
