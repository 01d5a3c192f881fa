/**
 * What a pull that nobody kept an evaluation of was first worked out as: kept once, for a later program to be compared
 * with. Closed form: Rm = Fm / (b·t).
 */
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import { firstStated } from '../../../core/archive/first-stated.ts';
import { keepFirstStated } from '../../../core/archive/keep-first-stated.ts';
import { mergeArchive } from '../../../core/archive/merge-archive.ts';
import { splitByYear } from '../../../core/archive/split-archive.ts';
import { makeAnew } from '../../../core/archive/search/make-index.ts';
import { type EvaluatedAgain, evaluateAgain } from '../../../core/evaluation/evaluate-again.ts';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { ran } from '../command-line/in-process.ts';
import {
  WALL_MS,
  batch,
  END,
  keptPull,
  newPull,
  openArchive,
  scratchFolder,
} from '../archive/made-archive.ts';
import { type BegunRecorder, begunRecorder } from './begun-recorder.ts';

const flat = (thickness: string): SpecimenFile => ({
  id: 'NP-1',
  geometry: { kind: 'flat', width: '20 mm', thickness },
  gaugeLength: '50 mm',
});

/** As a program of another year would have kept it. */
const EARLIER = {
  values: [{ symbol: 'Rm', value: 390, unit: 'MPa' }],
  methodVersion: '1',
} as const;

/** 48 kN typed from the display over 20 mm × 6 mm: 400 MPa. */
async function typed48kN(archivePath = join(scratchFolder(), 'a.gaugemark')): Promise<
  BegunRecorder & {
    readonly pullId: number;
    readonly first: number;
    readonly again: () => Promise<EvaluatedAgain[]>;
  }
> {
  const begun = await begunRecorder({ archivePath });
  const { specimenId: first } = await begun.ask('specimen.save', { specimen: flat('6 mm') });
  const { pullId } = await begun.ask('pull.type', { specimenId: first, typed: { load: '48 kN' } });
  const again = async (): Promise<EvaluatedAgain[]> => {
    const lines: EvaluatedAgain[] = [];
    const run = { ask: begun.ask, pullIds: [pullId], over: null, isStopped: () => false };
    for await (const line of evaluateAgain(run)) lines.push(line);
    return lines;
  };
  return { ...begun, pullId, first, again };
}

const strength = (values: readonly { readonly symbol: string; readonly value: number }[] = []) =>
  values.find(({ symbol }) => symbol === 'Rm')?.value;

test('is kept once, by the first evaluation, with method, version and moment', async () => {
  const { ask, pullId } = await typed48kN();
  expect((await ask('evaluation.stated', { pullId })).first).toBeNull();
  // Neither with other options nor with other sizes it is what stands.
  await ask('pull.evaluate', { pullId, options: { rounding: 'iso-6892-1' } });
  await ask('pull.evaluate', { pullId, specimen: flat('5 mm') });
  expect((await ask('evaluation.stated', { pullId })).first).toBeNull();
  const { methodVersion } = await ask('pull.evaluate', { pullId });
  const { first } = await ask('evaluation.stated', { pullId });
  expect(first).toMatchObject({ methodVersion, programVersion: '9.9.9' });
  expect(strength(first?.values)).toBeCloseTo(400, 9);
  await ask('pull.evaluate', { pullId, options: {} });
  expect((await ask('evaluation.stated', { pullId })).first).toEqual(first);
});

test('of a set that is judged it is kept too', async () => {
  const { ask, pullId, first: specimenId } = await typed48kN();
  const form = { name: 'Bracket', purpose: 'procedure-qualification', rulePackId: 'asme-ix' } as const;
  const baseMetals = [{ designation: 'plate of our own', minimum: '350 MPa' }];
  const { setId } = await ask('set.save', {
    form: { ...form, specimenType: 'transverse-flat', baseMetals },
  });
  await ask('set.join', { setId, specimenId });
  await ask('set.judge', { setId });
  expect(strength((await ask('evaluation.stated', { pullId })).first?.values)).toBeCloseTo(400, 9);
});

test('what an earlier method gave otherwise is listed with old and new; nothing else takes its place', async () => {
  const { recorder, ask, pullId, first: specimenId, again } = await typed48kN();
  await recorder.archive.call('keepFirstStated', { pullId, specimenId, ...EARLIER });
  await ask('pull.evaluate', { pullId });
  const [line] = await again();
  expect(line?.against).toMatchObject({
    from: 'first-stated',
    methodVersion: '1',
    programVersion: '9.9.9',
  });
  expect(line?.changes[0]).toMatchObject({ symbol: 'Rm', before: { value: 390, unit: 'MPa' } });
  expect(line?.changes[0]?.after?.value).toBeCloseTo(400, 9);
  expect(await again()).toEqual([line]);
  // What a person keeps is what counts from then on.
  await ask('evaluation.keep', { pullId, options: {}, supersedes: null, reason: 'program of this year' });
  expect(await again()).toMatchObject([{ against: { from: 'evaluation' }, changes: [] }]);
});

test('by corrected sizes nothing was stated, until that is worked out; a later program is then compared with that', async () => {
  const { recorder, ask, pullId, first: specimenId, again } = await typed48kN();
  await recorder.archive.call('keepFirstStated', { pullId, specimenId, ...EARLIER });
  const corrected = await ask('specimen.save', {
    specimen: flat('5 mm'),
    supersedes: specimenId,
    reason: 'thickness read wrongly',
  });
  expect(await again()).toMatchObject([{ against: null, changes: [] }]);
  // The run itself has worked it out: 48 kN over 20 mm × 5 mm.
  expect(strength((await ask('evaluation.stated', { pullId })).first?.values)).toBeCloseTo(480, 9);
  expect(await again()).toMatchObject([{ against: { from: 'first-stated' }, changes: [] }]);
  expect(corrected.evaluations).toEqual([]);
});

test('none is kept of an archive that is only read, nor while a record is open', async () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = keptPull(archive, 20, 100);
  const { specimenId } = archive.getPull(pullId);
  const stated = { pullId, specimenId, ...EARLIER };
  const keeping = { wallMs: WALL_MS, programVersion: '0.0.1' };
  const open = archive.beginPull(newPull(specimenId));
  expect(archive.sets((connection) => keepFirstStated(connection, stated, keeping))).toBe(false);
  archive.closePull(batch(open), END);
  archive.close();
  const before = readFileSync(path);
  const { code, out } = await ran('archive', 'evaluate-again', '--archive', path);
  expect([code, out]).toEqual([0, expect.stringMatching(/2 had nothing stated before/)]);
  expect(readFileSync(path).equals(before)).toBe(true);

  const written = openArchive(path);
  expect(written.sets((connection) => keepFirstStated(connection, stated, keeping))).toBe(true);
  written.close();
  const told = await ran('archive', 'evaluate-again', '--archive', path);
  expect(told.out).toMatch(
    /pull 1 T-1 as first worked out on 2026-03-04T09:30:00\.000Z by Gaugemark 0\.0\.1, method 1\n {2}Rm: 390 MPa → /,
  );
  const { changed } = JSON.parse(
    (await ran('archive', 'evaluate-again', '--archive', path, '--json')).out,
  ) as { changed: unknown };
  expect(changed).toMatchObject([
    {
      pullId,
      against: {
        from: 'first-stated',
        statedWallMs: WALL_MS,
        programVersion: '0.0.1',
        methodVersion: '1',
      },
    },
  ]);
});

test('check, backup and merge go on as without it, and an index made anew leaves it', async () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = keptPull(archive, 20, 100);
  const { specimenId } = archive.getPull(pullId);
  const head = () => archive.connection.prepare('SELECT max(audit_id) FROM audit').pluck().get();
  const audited = head();
  archive.sets((connection, keeping) =>
    keepFirstStated(connection, { pullId, specimenId, ...EARLIER }, keeping),
  );
  expect(head()).toBe(audited);
  expect(archive.check({}).sound).toBe(true);
  makeAnew(archive.connection);
  expect(firstStated(archive.connection, pullId, specimenId)).toMatchObject(EARLIER);
  // What can't be read is as if it were not there.
  archive.connection.exec("UPDATE search_stated SET values_json = '[1]'");
  expect(firstStated(archive.connection, pullId, specimenId)).toBeNull();
  archive.close();

  const backup = join(folder, 'b.gaugemark');
  const backed = await ran('archive', 'backup', '--out', backup, '--archive', path);
  expect(backed.code, backed.err).toBe(0);
  const other = join(folder, 'c.gaugemark');
  openArchive(other).close();
  const merged = await ran('archive', 'merge', path, '--archive', other, '--yes');
  expect(merged.code, merged.err).toBe(0);
  const target = openArchive(other);
  expect(target.info().pullCount).toBe(1);
  expect(firstStated(target.connection, 1, target.getPull(1).specimenId)).toBeNull();
});

test('a pull takes it along into another archive, once, by a merge and by a split; what is stated there stays', () => {
  const folder = scratchFolder();
  const there = openArchive(join(folder, 'there.gaugemark'));
  const pullId = keptPull(there, 20, 100);
  const { specimenId } = there.getPull(pullId);
  const corrected = there.saveSpecimen({ specimen: flat('5 mm'), supersedes: specimenId, reason: 'misread' });
  const stateThere = (ofSpecimen: number, value: number) =>
    there.sets((connection, keeping) =>
      keepFirstStated(
        connection,
        { pullId, specimenId: ofSpecimen, ...EARLIER, values: [{ symbol: 'Rm', value, unit: 'MPa' }] },
        keeping,
      ),
    );
  stateThere(specimenId, 390);
  const here = openArchive(join(folder, 'here.gaugemark'));
  // So that neither pulls nor specimens have the same numbers in both.
  keptPull(here, 3, 10);
  const ends = (archive: Archive) => ({ connection: archive.connection });
  const merge = () =>
    [...mergeArchive({ ...ends(here), wallMs: 1 }, ends(there), true)].map(({ fate }) => fate);
  const statedHere = () => {
    const rows = here.connection
      .prepare('SELECT specimen_id FROM search_stated ORDER BY specimen_id')
      .pluck();
    return rows.all().map((id) => firstStated(here.connection, 2, Number(id)));
  };
  expect(merge()).toEqual(['taken']);
  expect(statedHere()).toEqual([firstStated(there.connection, pullId, specimenId)]);
  // Stated there since: it comes with the next merge, beside what is here.
  stateThere(corrected, 480);
  there.connection.exec("UPDATE search_stated SET method_version = '2' WHERE values_json LIKE '%390%'");
  expect(merge()).toEqual(['here-already']);
  expect(statedHere().map((one) => [strength(one?.values), one?.methodVersion])).toEqual([
    [390, '1'],
    [480, '1'],
  ]);
  expect(here.check({}).sound).toBe(true);
  here.close();

  const into = join(folder, 'years');
  mkdirSync(into);
  const keeping = { wallMs: () => WALL_MS, programVersion: '9.9.9' };
  const [part] = splitByYear(there, into, { ...keeping, checkOf: () => ({}) });
  there.close();
  const year = openArchive(part?.path ?? '');
  const its = year.connection.prepare('SELECT specimen_id FROM search_stated').pluck().all().map(Number);
  expect(its.map((id) => strength(firstStated(year.connection, 1, id)?.values)).toSorted()).toEqual([
    390, 480,
  ]);
});
