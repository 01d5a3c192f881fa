/** That nothing of a pull was lost, doubled or changed. */
import { expect } from 'vitest';
import { type RecorderProcess, lineOf } from '../recorder-process.ts';

/** Every line that was sent and read, in order, as counters; and the raw bytes as they were sent. */
export async function expectAllKept(recorder: RecorderProcess, pullId: number, sent: number): Promise<void> {
  expect(await recorder.countsOf(pullId)).toEqual(Array.from({ length: sent }, (_, i) => i));
  expect(await recorder.rawOf(pullId)).toBe(Array.from({ length: sent }, (_, i) => lineOf(i)).join(''));
}
