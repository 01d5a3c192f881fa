/** Archives of several years beside each other: one search, one table, one picture, one trend over all of them. */
import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { beforeAll, expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();
const folder = join(file('empty', ''), '..');
const [older, newer] = [join(folder, 'shop-2024.gaugemark'), join(folder, 'shop-2025.gaugemark')];
const BOTH = ['--archive', newer, '--with', older] as const;

/** 100 mm²: straight at 200 GPa to 400 MPa, then level at that with a slope of 2 MPa per percent, and broken. */
const record = (maxStrainPercent: number, sharp: boolean): string =>
  [
    'time_s,force_N,extension_mm',
    ...Array.from({ length: 400 }, (_, i) => {
      const strain = (i / 399) * (maxStrainPercent / 100);
      const level = 400 + 200 * strain;
      const stress = Math.min(200_000 * strain, level);
      const upper = sharp && stress === level && strain < 0.0024 ? 30 : 0;
      return [i / 10, 100 * (stress + upper), 50 * strain].join(',');
    }),
    ...Array.from({ length: 10 }, (_, i) => `${String(40 + i / 10)},40,${String(0.5 * maxStrainPercent)}`),
    '',
  ].join('\n');

async function imported(archive: string, id: string, text: string): Promise<void> {
  const geometry = { kind: 'flat', width: '20 mm', thickness: '5 mm' };
  file(`${id}.specimen.json`, JSON.stringify({ id, geometry, gaugeLength: '50 mm' }));
  const kept = await ran('archive', 'import', file(`${id}.csv`, text), '--archive', archive);
  expect(kept.code, kept.err).toBe(0);
}

const json = async <T>(...args: string[]): Promise<T> => {
  const { code, out, err } = await ran('archive', ...args, '--json');
  expect(code, err).toBe(0);
  return JSON.parse(out) as T;
};

beforeAll(async () => {
  await imported(older, 'OLD-1', record(5, false));
  await imported(older, 'OLD-2', record(6, false));
  await imported(newer, 'NEW-1', record(7, true));
  const kept = await ran(
    ...['archive', 'evaluate', '1', '--archive', older, '--offset', '0.2,1', '--reason', 'our own limit'],
  );
  expect(kept.code, kept.err).toBe(0);
}, 120_000);

interface Found {
  readonly pulls: readonly {
    readonly archive: string;
    readonly pullId: number;
    readonly specimenName: string;
  }[];
  readonly next: string | null;
}
const namesOf = ({ pulls }: Found): string[] =>
  pulls.map((one) => `${basename(one.archive)} ${one.specimenName}`);

it('finds through all of them page by page, by one key', async () => {
  const first = await json<Found>('search', ...BOTH, '--limit', '1');
  expect(namesOf(first)).toEqual(['shop-2025.gaugemark NEW-1', 'shop-2024.gaugemark OLD-2']);
  const second = await json<Found>('search', ...BOTH, '--limit', '1', '--after', first.next ?? '');
  expect(namesOf(second)).toEqual(['shop-2024.gaugemark OLD-1']);
  let { next } = second;
  while (next !== null) {
    const more = await json<Found>('search', ...BOTH, '--limit', '1', '--after', next);
    expect(more.pulls).toEqual([]);
    ({ next } = more);
  }
  for (const key of ['2', '["2"]', '{}']) {
    const wrong = await ran('archive', 'search', ...BOTH, '--after', key);
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('key')]);
  }
});

it('puts the hits of all of them into one order, page by page and in a table', async () => {
  const search = ['search', ...BOTH, '--sort', 'specimen', '--limit', '2'] as const;
  const first = await json<Found>(...search);
  expect(first.pulls.map((one) => one.specimenName)).toEqual(['OLD-2', 'OLD-1']);
  const { out, code, err } = await ran('archive', ...search, '--after', first.next ?? '');
  expect(code, err).toBe(0);
  expect(out).toMatch(/^archive .*\nshop-2025.* NEW-1 [^\n]*\n?$/);
  const to = join(folder, 'sorted.csv');
  await ran('archive', 'search', ...BOTH, '--sort', 'specimen', '--ascending', '--csv', to);
  const rows = parse<Record<string, string>>(readFileSync(to, 'utf8'), { columns: true, bom: true });
  expect(rows.map((row) => row.specimen)).toEqual(['NEW-1', 'OLD-1', 'OLD-2']);
});

it('writes one table of all, each pull with its file', async () => {
  const to = join(folder, 'all.csv');
  const { code, err, out } = await ran('archive', 'search', ...BOTH, '--csv', to);
  expect(code, err).toBe(0);
  expect(out).toContain('3 rows');
  const rows = parse<Record<string, string>>(readFileSync(to, 'utf8'), { columns: true, bom: true });
  expect(rows.map((row) => [row.archive, row.pull, row.specimen])).toEqual([
    ['shop-2025.gaugemark', '1', 'NEW-1'],
    ['shop-2024.gaugemark', '2', 'OLD-2'],
    ['shop-2024.gaugemark', '1', 'OLD-1'],
  ]);
  expect(Number(rows[2]?.['Rm (MPa)'])).toBeCloseTo(410, 3);
  const workbook = join(folder, 'all.xlsx');
  expect((await ran('archive', 'search', ...BOTH, '--xlsx', workbook)).code).toBe(0);
  expect(existsSync(workbook)).toBe(true);
});

interface Trend {
  readonly of: string;
  readonly pulls: readonly { readonly archive?: string; readonly name: string; readonly value: number }[];
  readonly notJudged: readonly unknown[];
}

it('looks at a result over all of them, also at proof strengths that an archived evaluation holds', async () => {
  const strengths = await json<Trend>('trend', ...BOTH);
  expect(strengths.pulls.map(({ name }) => name).sort()).toEqual(['NEW-1', 'OLD-1', 'OLD-2']);
  expect(strengths.notJudged).toContainEqual({ archive: older, pullId: 2 });
  // At 1 % beyond the elastic line: 400 MPa and 200 MPa times the strain, which is near 1.2 %.
  const proof = await json<Trend>('trend', ...BOTH, '--of', 'Rp1');
  expect(proof.pulls.map(({ name }) => name)).toEqual(['OLD-1']);
  expect(proof.pulls[0]?.value).toBeCloseTo(402.4, 0);
  for (const symbol of ['ReL', 'Rt0.5', 'ReH']) {
    const { pulls } = await json<Trend>('trend', ...BOTH, '--of', symbol);
    expect(pulls.length, symbol).toBeGreaterThan(0);
  }
  const none = await ran('archive', 'trend', ...BOTH, '--of', 'Rp7');
  expect(none.out).toMatch(/No pull here gives Rp7\. They give .*Rp0\.2.*Rp1/);
  const wrong = await ran('archive', 'trend', ...BOTH, '--of', 'Fm');
  expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('Rp1 or Rt0.7')]);
});

it('lays curves of several over each other, told apart where their numbers are the same', async () => {
  const svg = join(folder, 'years.svg');
  const said = await json<{ drawn: { archive: string; pullId: number; specimen: string }[] }>(
    ...['overlay', '1', '--archive', newer, '--with', `${older}#1`, '--with', `${older}#2`, '--svg', svg],
  );
  expect(said.drawn.map((one) => [basename(one.archive), one.pullId, one.specimen])).toEqual([
    ['shop-2025.gaugemark', 1, 'NEW-1'],
    ['shop-2024.gaugemark', 1, 'OLD-1'],
    ['shop-2024.gaugemark', 2, 'OLD-2'],
  ]);
  const picture = readFileSync(svg, 'utf8');
  for (const name of ['NEW-1', 'OLD-1', 'OLD-2']) expect(picture).toContain(`>${name}<`);
  const refused = async (text: string) =>
    ran('archive', 'overlay', '1', '--archive', newer, '--with', text, '--svg', join(folder, 'no.svg'));
  expect(await refused(older)).toMatchObject({ code: 2, err: expect.stringContaining('FILE#ID') as string });
  expect((await refused(`${older}#9`)).code).toBe(2);
  expect((await refused(`${join(folder, 'none.gaugemark')}#1`)).err).toContain('no archive');
});
