import { describe, expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();

/** Five pulls of a laboratory's worksheet on the uncertainty of Rm (no public page of its own): force kN, width, thickness mm. */
const PULLS = [
  [81.0, '18.96', '12.51'],
  [82.0, '19.03', '12.49'],
  [82.0, '19.36', '12.50'],
  [82.0, '19.13', '12.51'],
  [81.0, '19.35', '12.48'],
] as const;

const rising = (kN: number): string =>
  [
    'time_s,force_kN',
    ...Array.from({ length: 41 }, (_, i) => `${String(i)},${String(kN * (1 - (1 - i / 40) ** 2))}`),
    `41,${String(kN * 0.9)}`,
    '42,0.01',
  ].join('\n');
const args = PULLS.flatMap(([kN, width, thickness], i) => [
  '--curve',
  file(`${String(i)}.csv`, rising(kN)),
  '--specimen',
  file(
    `${String(i)}.json`,
    JSON.stringify({
      id: `P-${String(i + 1)}`,
      geometry: { kind: 'flat', width: `${width} mm`, thickness: `${thickness} mm` },
    }),
  ),
]);

interface Document {
  readonly statistics: Readonly<
    Record<string, { mean: number; standardDeviation: number; maxOf: string; minOf: string; count: number }>
  >;
}

describe('gaugemark set', () => {
  it('gives mean, deviation and extremes of five pulls as their laboratory printed them', async () => {
    const { code, out } = await ran('set', ...args, '--json');
    expect(code).toBe(0);
    const { Rm } = (JSON.parse(out) as Document).statistics;
    expect(Rm?.count).toBe(5);
    expect(Rm?.mean).toBeCloseTo(340.685, 1);
    expect(Rm?.standardDeviation).toBeCloseTo(3.677, 1);
    expect(Rm?.maxOf).toBe('P-2');
    expect(Rm?.minOf).toBe('P-5');
  });

  it('says the same as text', async () => {
    const { out } = await ran('set', ...args);
    expect(out).toMatch(
      /^Rm +n = 5, mean 340\.68 MPa, s 3\.6\d+, s\/mean 1\.08 %, smallest 335\.42 \(P-5\), largest 344\.99 \(P-2\)$/m,
    );
  });

  it.each([
    [[], /save, list, show, join, void, judge, override.*--curve/],
    [['--units', 'si'], /at least one --curve/],
    [['mend', '3'], /"set mend" is not known/],
    [
      args
        .slice(0, 6)
        .concat('--specimen', args[3] ?? '', '--curve', args[1] ?? '', '--curve', args[1] ?? ''),
      /one specimen for each curve/,
    ],
  ])('refuses what does not fit together', async (wrong, sentence) => {
    const { code, err, out } = await ran('set', ...wrong);
    expect(code).toBe(2);
    expect(err).toMatch(sentence);
    expect(out).toBe('');
  });
});
