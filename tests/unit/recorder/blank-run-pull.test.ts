/** A kept pull as a blank run: its compliance is measured from it, and named with the hash of its bytes. */
import { expect, it } from 'vitest';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import { BY_HAND, begunRecorder } from './begun-recorder.ts';

const profile = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'frame',
  format: { kind: 'delimited', delimiter: ';', fields: ['load', 'travel'] },
  channels: [
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } },
    { field: 'travel', quantity: 'travel', unit: { kind: 'fixed', unit: 'mm' } },
  ],
});

it('tells what frame and grips gave at each force, from the curve of a pull', async () => {
  const { ask, specimenId, send } = await begunRecorder();
  const source = { kind: 'simulated', scenario: 'quenched-steel' } as const;
  const { pullId } = await ask('pull.ready', { specimenId, source, profile, ...BY_HAND });
  // 0.02 mm a kN, a stiff bar.
  send(...Array.from({ length: 400 }, (_, k) => `${(k / 4).toFixed(2)};${(k * 0.005).toFixed(4)}`));
  await ask('pull.close', {});
  const { points, name, sha256 } = await ask('evaluation.blank-run', { pullId });
  expect(points.length).toBeGreaterThan(20);
  for (const { forceN, travelMm } of points) expect(travelMm).toBeCloseTo(forceN * 2e-5, 6);
  expect(name).toBe(`pull ${String(pullId)}, T-1`);
  expect(sha256).toMatch(/^[0-9a-f]{64}$/);
});
