/** Lines and tables of what is found carry the verdicts of its sets, also where nobody has judged since the last statement. */
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { expect, it } from 'vitest';
import { NEWEST_FIRST } from '../../../core/contract/search-requests.ts';
import { recorderAccess } from '../../../electron/command-line/recorder-access.ts';
import { tabledPulls } from '../../../electron/command-line/results-of-several.ts';
import { scratchFolder } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

const SET = {
  name: 'Bracket',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  specimenType: 'transverse-flat',
  baseMetals: [
    { designation: 'plate of our own', minimum: '350 MPa', heat: 'H-77' },
    { designation: 'plate of our own', minimum: '350 MPa', heat: 'H-78' },
  ],
  filler: { classification: 'E7018', lot: '4711' },
  welder: 'Okafor',
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
      expect(tabled.map(({ pull }) => pull.verdict)).toEqual([null, 'reject']);
      expect(await lines(1)).toMatchObject(said);
      // What was judged is known from then on: in memory, as long as an archive is open that is only read.
      expect(await lines(0)).toMatchObject(said);
    });
});

it('name what the set says of metal, filler and welder, in lines and in the columns that are asked for', async () => {
  const folder = scratchFolder();
  const archive = await kept(folder);
  const { out } = await ran('archive', 'search', '--archive', archive, '--json');
  const { pulls } = JSON.parse(out) as { pulls: Record<string, unknown>[] };
  expect(pulls.find(({ pullId }) => pullId === 1)).toMatchObject({
    rulePackName: expect.stringContaining('IX') as string,
    baseMetal: 'plate of our own',
    filler: 'E7018',
    heat: 'H-77, H-78',
    fillerLot: '4711',
    welder: 'Okafor',
  });
  expect(pulls.find(({ pullId }) => pullId === 2)).toMatchObject({ heat: null, welder: null });
  const csv = join(folder, 'chosen.csv');
  const columns = 'heat, filler lot, Rm, Rm rounded, Z, Welder';
  const asked = ['archive', 'search', '--archive', archive, '--csv', csv, '--columns', columns];
  const written = await ran(...asked);
  expect(written.code, written.err).toBe(0);
  expect(written.err).toContain('No pull of the table gives anything for: Z.');
  const [titles, , row] = parse(readFileSync(csv, 'utf8'), { bom: true });
  expect(titles).toEqual(['heat', 'filler lot', 'Rm (MPa)', 'Rm rounded (MPa)', 'Z', 'welder']);
  // Fm 249 · 60 N = 14 940 N over 20 mm · 2.5 mm.
  expect(row).toEqual(['H-77, H-78', '4711', '298.8', '299', '', 'Okafor']);
  const several = join(folder, 'several.csv');
  const other = join(folder, 'b.gaugemark');
  copyFileSync(archive, other);
  const both = await ran(
    'archive',
    'search',
    '--archive',
    archive,
    '--with',
    other,
    '--csv',
    several,
    '--columns',
    'archive,heat',
  );
  expect(both.code, both.err).toBe(0);
  expect(parse(readFileSync(several, 'utf8'), { bom: true })).toEqual([
    ['archive', 'heat'],
    ['a.gaugemark', ''],
    ['a.gaugemark', 'H-77, H-78'],
    ['b.gaugemark', ''],
    ['b.gaugemark', 'H-77, H-78'],
  ]);
  for (const [wrong, says] of [
    ['heta', /"heta" is no column; "heat" may be meant/],
    ['Rm sideways', /is no column/],
    [' , ', /names 0 columns/],
  ] as const) {
    const refused = await ran(
      'archive',
      'search',
      '--archive',
      archive,
      '--csv',
      `${csv}2`,
      '--columns',
      wrong,
    );
    expect([refused.code, refused.err]).toEqual([2, expect.stringMatching(says)]);
  }
  const alone = await ran('archive', 'search', '--archive', archive, '--columns', 'heat');
  expect([alone.code, alone.err]).toEqual([2, expect.stringMatching(/add --csv FILE/)]);
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
