/** The pace of a readout, from when its bytes came: what waited before the port was opened doesn't count. */
import { expect, it } from 'vitest';
import { type HeardChunk, steadySeconds } from '../../../drivers/learn/steady-rate.ts';

/** Ten bytes every 100 ms for so many seconds, after so many bytes at once. */
function heard(seconds: number, queuedBytes: number): HeardChunk[] {
  const steady = Array.from({ length: seconds * 10 }, (_, i) => ({ us: 1000 + i * 100_000, byteCount: 10 }));
  return queuedBytes === 0 ? steady : [{ us: 0, byteCount: queuedBytes }, ...steady];
}

const bytesPerS = (chunks: HeardChunk[]): number =>
  chunks.reduce((sum, { byteCount }) => sum + byteCount, 0) / (steadySeconds(chunks) ?? Number.NaN);

it('is that of the later bytes, whatever had been waiting', () => {
  for (const queued of [0, 500, 20_000]) expect(bytesPerS(heard(5, queued))).toBeCloseTo(100, 6);
});

it('is that of a slow readout too, one line a second', () => {
  const chunks = Array.from({ length: 5 }, (_, i) => ({ us: i * 1_000_000, byteCount: 12 }));
  expect(bytesPerS(chunks)).toBeCloseTo(12, 6);
});

it('is not known from a burst alone, or from nothing', () => {
  expect(steadySeconds([])).toBe(null);
  expect(
    steadySeconds([
      { us: 0, byteCount: 20_000 },
      { us: 90_000, byteCount: 400 },
    ]),
  ).toBe(null);
});
