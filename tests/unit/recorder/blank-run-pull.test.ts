/** A kept pull as a blank run: its compliance is measured from it, and named with the hash of its bytes. */
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import type { RequestName } from '../../../core/contract/index.ts';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import { type Transport, type TransportListener, monotonicUs } from '../../../drivers/transport.ts';
import { SPECIMEN, scratchFolder } from '../archive/made-archive.ts';

const profile = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'frame',
  format: { kind: 'delimited', delimiter: ';', fields: ['load', 'travel'] },
  channels: [
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } },
    { field: 'travel', quantity: 'travel', unit: { kind: 'fixed', unit: 'mm' } },
  ],
});
const BY_HAND = { trigger: { kind: 'by-hand' }, breakRule: { kind: 'by-hand' }, tailS: null } as const;

it('tells what frame and grips gave at each force, from the curve of a pull', async () => {
  const told: TransportListener[] = [];
  const transport: Transport = {
    kind: 'serial',
    place: 'a frame',
    open: (to) => {
      told.push(to);
      return Promise.resolve();
    },
    write: () => Promise.resolve(),
    close: () => Promise.resolve(),
  };
  const recorder = new Recorder({
    archivePath: join(scratchFolder(), 'a.gaugemark'),
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    makeTransport: () => transport,
    log: () => undefined,
  });
  onTestFinished(() => recorder.end());
  await recorder.begin();
  const ask = async (name: RequestName, payload: unknown): Promise<unknown> => {
    const answer = await answerRequest(recorder, name, payload);
    if (!answer.ok) throw new Error(answer.fault.code);
    return answer.value;
  };
  const { specimenId } = (await ask('specimen.save', { specimen: SPECIMEN })) as { specimenId: number };
  const source = { kind: 'simulated', scenario: 'quenched-steel' };
  const { pullId } = (await ask('pull.ready', { specimenId, source, profile, ...BY_HAND })) as {
    pullId: number;
  };
  // 0.02 mm a kN, a stiff bar.
  const lines = Array.from(
    { length: 400 },
    (_, k) => `${(k / 4).toFixed(2)};${(k * 0.005).toFixed(4)}\r\n`,
  ).join('');
  told[0]?.onChunk(Buffer.from(lines), monotonicUs());
  await ask('pull.close', {});
  const { points, name, sha256 } = (await ask('evaluation.blank-run', { pullId })) as {
    points: { forceN: number; travelMm: number }[];
    name: string;
    sha256: string;
  };
  expect(points.length).toBeGreaterThan(20);
  for (const { forceN, travelMm } of points) expect(travelMm).toBeCloseTo(forceN * 2e-5, 6);
  expect(name).toBe(`pull ${String(pullId)}, T-1`);
  expect(sha256).toMatch(/^[0-9a-f]{64}$/);
});
