/** A pull of another archive: asked beside the own one, only read, and let go again. */
import { readFileSync } from 'node:fs';
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

/** Sets of one pull each, of a specimen of its own; none was ever judged. */
function archiveOfSets(path: string, count: number): void {
  const made = openArchive(path);
  for (let i = 0; i < count; i++) {
    const specimenId = made.saveSpecimen({ specimen: { ...SPECIMEN, id: `S-${String(i)}` } });
    keptPull(made, 3, 10, specimenId);
    made.noteFracture({ pullId: i + 1, note: { place: 'base-metal' } });
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
  }
  made.close();
}

test('a search by verdict judges the sets of another archive a few at a time, in memory; not a byte of it changes', async () => {
  const folder = scratchFolder();
  const other = join(folder, 'other.gaugemark');
  archiveOfSets(other, 7);
  const before = readFileSync(other);
  const { answered, recorder } = await begunRecorder();
  const search = (query: object) => answered('archive.search-elsewhere', { file: other, query, limit: 50 });
  const found = (query: object) => {
    const payload = { query, order: NEWEST_FIRST };
    return answered('archive.read-elsewhere', { file: other, name: 'archive.found', payload });
  };
  // What rests on no verdict waits for none.
  expect(await search({})).toMatchObject({ ok: true, value: { total: 7, setsNotJudged: 0 } });
  // Force of these records falls at once: each set is rejected or undecided, none accepted.
  expect(await search({ verdict: 'accept' })).toMatchObject({
    ok: true,
    value: { total: 0, setsNotJudged: 2, setsUnjudged: 0 },
  });
  expect(await search({ verdict: 'accept' })).toMatchObject({ ok: true, value: { setsNotJudged: 0 } });
  const totals: number[] = [];
  for (const verdict of ['accept', 'reject', 'undecided', 'not-judged']) {
    const answer = await search({ verdict });
    if (!answer.ok) throw new Error(answer.fault.sentence);
    expect(answer.value.setsNotJudged).toBe(0);
    totals.push(answer.value.total);
    // Every line says the verdict that it was found by.
    for (const line of answer.value.items)
      expect([line.verdict ?? 'not-judged', line.verdictKnown]).toEqual([verdict, true]);
  }
  expect(totals.reduce((sum, one) => sum + one, 0)).toBe(7);
  expect(totals[3]).toBeLessThan(7);
  // The trend asks the same archive in two steps, and a list sorted by verdict has all of them.
  expect(await found({ questionable: true })).toMatchObject({
    ok: true,
    value: { value: { setsNotJudged: 0 } },
  });
  const payload = { query: {}, order: { by: 'verdict', descending: true } };
  const sorted = await answered('archive.read-elsewhere', { file: other, name: 'archive.found', payload });
  expect(sorted).toMatchObject({ ok: true, value: { value: { setsNotJudged: 0 } } });
  await recorder.end();
  expect(readFileSync(other).equals(before)).toBe(true);
});

test('a set that can’t be judged is told and keeps nobody from the others', async () => {
  const folder = scratchFolder();
  const other = join(folder, 'other.gaugemark');
  archiveOfSets(other, 3);
  const harmed = openArchive(other);
  harmed.sets((connection) => {
    connection.exec('DROP TRIGGER IF EXISTS set_statement_unchanged');
    for (const { name } of connection
      .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'set_statement'")
      .all() as { name: string }[])
      connection.exec(`DROP TRIGGER ${name}`);
    connection.exec(
      "UPDATE set_statement SET set_json = json_remove(set_json, '$.pack.rules') WHERE set_id = 2",
    );
  });
  harmed.close();
  const { answered } = await begunRecorder();
  expect(
    await answered('archive.search-elsewhere', { file: other, query: { verdict: 'accept' }, limit: 5 }),
  ).toMatchObject({ ok: true, value: { setsNotJudged: 0, setsUnjudged: 1 } });
});
