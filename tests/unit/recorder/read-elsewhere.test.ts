/** A pull of another archive: asked beside the own one, only read, and let go again. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { pullKey, pullOfKey } from '../../../core/pull/pull-elsewhere.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import { withoutFolders } from '../../../electron/main/chosen-files.ts';
import {
  archiveNumber,
  fileOfPull,
  keyElsewhere,
  numberOfPull,
  routeOf,
} from '../../../renderer/store/elsewhere.ts';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { NEWEST_FIRST } from '../../../core/contract/search-requests.ts';
import { SPECIMEN, keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { begunRecorder } from './begun-recorder.ts';

test('numbers of pulls of several archives are never the same, and those of the own one are what they were', () => {
  for (const archive of [0, 1, 40])
    for (const pullId of [1, 7, 4_000_000_000])
      expect(pullOfKey(pullKey({ archive, pullId }))).toEqual({ archive, pullId });
  expect(pullKey({ archive: 0, pullId: 12 })).toBe(12);
});

test('what is asked of such a pull goes to its archive, and nothing that would keep something goes anywhere', () => {
  const file = { sign: 'chosen:3', name: 'shop-2024.gaugemark' };
  const key = keyElsewhere(file, 12);
  expect([fileOfPull(key), numberOfPull(key), fileOfPull(12)]).toEqual([file, 12, null]);
  expect(archiveNumber({ ...file })).toBe(archiveNumber(file));
  expect(routeOf('pull.get', { pullId: 12 })).toBeNull();
  expect(routeOf('pull.readings', { pullId: key, fromSeq: 5, count: 9 })).toEqual({
    ask: { file: 'chosen:3', name: 'pull.readings', payload: { pullId: 12, fromSeq: 5, count: 9 } },
  });
  for (const name of ['pull.void', 'evaluation.keep', 'pull.note-fracture', 'archive.export'])
    expect(routeOf(name, { pullId: key })).toMatchObject({ fault: { code: 'only-read-elsewhere' } });
  // Columns stay columns on their way to the page.
  const value = { value: { columns: { force: new Float64Array([1, 2]) }, path: '/somewhere/x' } };
  expect(withoutFolders('archive.read-elsewhere', { ok: true, value })).toEqual({ ok: true, value });
});

test('a recorder answers for another archive as that one would, keeps nothing in it, and lets it go at its end', async () => {
  const folder = scratchFolder();
  const other = join(folder, 'other.gaugemark');
  const made = openArchive(other);
  keptPull(made, 3, 10, made.saveSpecimen({ specimen: { ...SPECIMEN, id: 'there' } }));
  made.close();
  const { recorder, answered } = await begunRecorder();
  // As a client might that keeps to no contract.
  const asked = (name: string, payload: object) =>
    answerRequest(recorder, 'archive.read-elsewhere', { file: other, name, payload });
  expect(await asked('pull.get', { pullId: 1 })).toMatchObject({
    ok: true,
    value: { value: { specimenName: 'there', readingCount: 30 } },
  });
  const readings = await asked('pull.readings', { pullId: 1, fromSeq: 0, count: 100 });
  expect(readings).toMatchObject({ ok: true, value: { value: { total: 30 } } });
  expect(await asked('pull.get', { pullId: 9 })).toMatchObject({
    ok: false,
    fault: { code: 'no-such-pull' },
  });
  expect(await asked('pull.void', { pullId: 1 })).toMatchObject({ ok: false });
  expect(
    await answered('archive.read-elsewhere', {
      file: join(folder, 'none.gaugemark'),
      name: 'pull.get',
      payload: { pullId: 1 },
    }),
  ).toMatchObject({ ok: false });
  // Searched while it is still open for reading.
  expect(await answered('archive.search-elsewhere', { file: other, query: {}, limit: 5 })).toMatchObject({
    ok: true,
    value: { total: 1 },
  });
  await asked('pull.get', { pullId: 1 });
  await recorder.end();
  const again = openArchive(other);
  expect(again.check({}).sound).toBe(true);
  again.close();
});

test('a search by verdict says of how many sets of another archive no verdict is known', async () => {
  const folder = scratchFolder();
  const other = join(folder, 'other.gaugemark');
  const made = openArchive(other);
  const specimenId = made.saveSpecimen({ specimen: SPECIMEN });
  keptPull(made, 3, 10, specimenId);
  made.sets((connection, keeping) => {
    const form = {
      name: 'Bracket',
      purpose: 'procedure-qualification',
      rulePackId: 'asme-ix',
      specimenType: 'transverse-flat',
      baseMetals: [{ designation: 'plate of our own', minimum: '75 MPa' }],
    };
    const setId = saveSet(connection, { form }, { ...keeping, packs: builtInPacks() });
    joinSet(connection, { setId, specimenId }, keeping.wallMs);
  });
  made.close();
  const { answered } = await begunRecorder();
  for (const [query, total, setsNotJudged] of [
    [{ verdict: 'accept' }, 0, 1],
    [{ questionable: true }, 0, 1],
    [{}, 1, 0],
  ] as const) {
    expect(await answered('archive.search-elsewhere', { file: other, query, limit: 5 })).toMatchObject({
      ok: true,
      value: { total, setsNotJudged },
    });
    const payload = { query, order: NEWEST_FIRST };
    expect(
      await answered('archive.read-elsewhere', {
        file: other,
        name: 'archive.found',
        payload,
      }),
    ).toMatchObject({ ok: true, value: { value: { setsNotJudged } } });
  }
});
