/** Lines and tables of what is found carry the verdicts of its sets, also where nobody has judged since the last statement. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { expect, it } from 'vitest';
import { NEWEST_FIRST } from '../../../core/contract/search-requests.ts';
import { recorderAccess } from '../../../electron/command-line/recorder-access.ts';
import { tabledPulls } from '../../../electron/command-line/results-of-several.ts';
import { scratchFolder } from '../archive/made-archive.ts';

const SET = {
  name: 'Bracket',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  specimenType: 'transverse-flat',
  baseMetals: [{ designation: 'plate of our own', minimum: '350 MPa' }],
};
const EVERYTHING = { query: {}, order: NEWEST_FIRST };

async function withAccess<T>(
  archive: string,
  toRecord: boolean,
  work: (ask: Awaited<ReturnType<typeof recorderAccess>>['ask']) => Promise<T>,
): Promise<T> {
  const access = await recorderAccess({ archive, toRecord, note: () => undefined });
  try {
    return await work(access.ask);
  } finally {
    await access.end();
  }
}

/** One pull of a set that broke in the base metal at 298.8 MPa, one of none; nobody has judged. */
async function kept(folder: string): Promise<string> {
  const archive = join(folder, 'a.gaugemark');
  await withAccess(archive, true, async (ask) => {
    for (const id of ['S-1', 'S-2']) {
      const rows = Array.from({ length: 300 }, (_, i) => `${String(i)},${String(i < 250 ? i * 60 : 50)}`);
      const file = join(folder, `${id}.csv`);
      writeFileSync(file, [`# ${id}`, 'time_s,force_N', ...rows].join('\n'));
      const geometry = { kind: 'flat', width: '20 mm', thickness: '2.5 mm' } as const;
      await ask('archive.import', { file, specimen: { id, geometry, gaugeLength: '50 mm' } });
    }
    const { setId } = await ask('set.save', { form: SET });
    const { specimenId } = await ask('pull.specimen', { pullId: 1 });
    await ask('set.join', { setId, specimenId });
    await ask('pull.note-fracture', { pullId: 1, note: { place: 'base-metal' } });
  });
  return archive;
}

it('are judged for a table, in an archive that is written to and in one that is only read', async () => {
  const folder = scratchFolder();
  const archive = await kept(folder);
  const said = [
    { pullId: 1, verdict: 'reject', verdictKnown: true },
    { pullId: 2, verdict: null, verdictKnown: true },
  ];
  for (const toRecord of [false, true])
    await withAccess(archive, toRecord, async (ask) => {
      const lines = async (judge: number): Promise<unknown> =>
        (await ask('archive.lines', { pullIds: [1, 2], judge })).items;
      expect(await lines(0), 'nobody has judged').toMatchObject([
        { verdict: null, verdictKnown: false },
        said[1],
      ]);
      const to = join(folder, `${String(toRecord)}.csv`);
      await ask('archive.export-results', { ...EVERYTHING, to, form: 'plain' });
      const rows = parse<Record<string, string>>(readFileSync(to, 'utf8'), { columns: true, bom: true });
      expect(rows.map(({ pull, verdict }) => [pull, verdict])).toEqual([
        ['2', ''],
        ['1', 'reject'],
      ]);
      const tabled = await tabledPulls({ ask }, { path: archive, ...EVERYTHING, before: 0 });
      expect(tabled.map(({ verdict }) => verdict)).toEqual([null, 'reject']);
      expect(await lines(1)).toMatchObject(said);
      // What was judged is kept where it may be.
      expect(await lines(0)).toMatchObject(
        toRecord ? said : [{ verdict: null, verdictKnown: false }, said[1]],
      );
    });
});

it('are unknown again as soon as something is said that they rest on', async () => {
  const archive = await kept(scratchFolder());
  await withAccess(archive, true, async (ask) => {
    const line = async (judge: number): Promise<unknown> =>
      (await ask('archive.lines', { pullIds: [1], judge })).items[0];
    expect(await line(1)).toMatchObject({ verdict: 'reject', verdictKnown: true });
    const { fractureNotes } = await ask('pull.get', { pullId: 1 });
    await ask('pull.note-fracture', {
      pullId: 1,
      note: { place: 'weld-metal', soundness: 'unsound' },
      ...(fractureNotes[0] === undefined ? {} : { supersedes: fractureNotes[0].fractureNoteId }),
      reason: 'looked at again',
    });
    expect(await line(0)).toMatchObject({ verdict: null, verdictKnown: false });
  });
});
