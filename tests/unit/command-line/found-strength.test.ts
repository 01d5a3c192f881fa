/** The strength of a list and of a search is the one that is shown when the pull is opened. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { z } from 'zod';
import { type SpecimenFile, specimenFile } from '../../../core/specimen/specimen-file.ts';
import { type RecorderAccess, recorderAccess } from '../../../electron/command-line/recorder-access.ts';
import { scratchFolder } from '../archive/made-archive.ts';

const CURVES = new URL('../../../fixtures/curves/', import.meta.url).pathname;
const published = z
  .object({
    curves: z.array(
      z.object({
        file: z.string(),
        specimen: specimenFile.optional(),
        expected: z.array(z.object({ symbol: z.string(), value: z.number(), tolerance: z.number() })),
      }),
    ),
  })
  .parse(JSON.parse(readFileSync(join(CURVES, 'published.json'), 'utf8'))).curves;

async function begun(): Promise<{ readonly folder: string; readonly ask: RecorderAccess['ask'] }> {
  const folder = scratchFolder();
  const access = await recorderAccess({
    archive: join(folder, 'a.gaugemark'),
    toRecord: true,
    note: () => undefined,
  });
  onTestFinished(() => access.end());
  return { folder, ask: access.ask };
}

type Ask = RecorderAccess['ask'];
const listed = async (ask: Ask, query: { strengthMinMpa?: number } = {}): Promise<(number | null)[]> =>
  (await ask('archive.search', { query, order: { by: 'kept', descending: false } })).items.map(
    ({ strengthMpa }) => strengthMpa,
  );
const opened = async (ask: Ask, pullId: number): Promise<number | undefined> =>
  (await ask('pull.evaluate', { pullId })).results.find(({ symbol }) => symbol === 'Rm')?.value;

it('a corrected dimension counts for the strength of an evaluation that was kept before it', async () => {
  const { folder, ask } = await begun();
  const file = join(folder, 'curve.csv');
  // To 14 940 N, then broken.
  const rows = Array.from({ length: 300 }, (_, i) => `${String(i)},${String(i < 250 ? i * 60 : 50)}`);
  writeFileSync(file, ['time_s,force_N', ...rows].join('\n'));
  const specimen = (width: string): SpecimenFile => ({
    id: 'T-1',
    geometry: { kind: 'flat', width, thickness: ['5.00 mm', '5.20 mm'] },
    gaugeLength: '50 mm',
  });
  const { pullId } = await ask('archive.import', { file, specimen: specimen('10 mm') });
  const options = { corrections: { forceZeroN: 40 }, section: 'least' } as const;
  await ask('evaluation.keep', { pullId, options, supersedes: null, reason: 'grips' });
  expect([await opened(ask, pullId), await listed(ask)]).toEqual([298, [298]]);
  const { specimenId } = await ask('pull.specimen', { pullId });
  await ask('specimen.save', { specimen: specimen('8 mm'), supersedes: specimenId, reason: 'misread' });
  // (14 940 N − 40 N) / (8 mm × 5 mm)
  expect([await opened(ask, pullId), await listed(ask)]).toEqual([372.5, [372.5]]);
  expect(await listed(ask, { strengthMinMpa: 370 })).toEqual([372.5]);
  const unmeasured: SpecimenFile = { id: 'T-1', geometry: { kind: 'unmeasured' } };
  const { specimenId: corrected } = await ask('pull.specimen', { pullId });
  await ask('specimen.save', { specimen: unmeasured, supersedes: corrected, reason: 'of another one' });
  expect([await opened(ask, pullId), await listed(ask)]).toEqual([undefined, [null]]);
});

it('records of stress have a strength as soon as they are imported: all published curves', async () => {
  const { ask } = await begun();
  const unmeasured = { kind: 'unmeasured' } as const;
  for (const { file, specimen = { id: file, geometry: unmeasured } } of published)
    await ask('archive.import', { file: join(CURVES, file), specimen });
  const strengths = await listed(ask);
  expect(strengths).toHaveLength(12);
  expect(strengths).not.toContain(null);
  for (const [i, { file, expected }] of published.entries()) {
    const strength = strengths[i] ?? Number.NaN;
    const shown = await opened(ask, i + 1);
    if (shown !== undefined) expect(strength, file).toBeCloseTo(shown, 9);
    // As published with the curve; the sources stand in fixtures/curves/README.md.
    for (const { symbol, value, tolerance } of expected)
      if (symbol === 'Rm') expect(Math.abs(strength - value), file).toBeLessThanOrEqual(tolerance);
  }
});
