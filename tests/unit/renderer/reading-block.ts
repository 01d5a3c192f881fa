/** Blocks of readings for tests: one load channel, a millisecond apart. */
import type { ReadingColumns } from '../../../core/contract/reading.ts';

export function block(firstSeq: number, loadN: readonly number[]): ReadingColumns {
  const count = loadN.length;
  return {
    firstSeq,
    count,
    elapsedUs: Float64Array.from(loadN, (_, i) => (firstSeq + i) * 1_000),
    chunkSeq: new Float64Array(count),
    status: new Uint8Array(count),
    channels: [
      {
        key: 'load',
        quantity: 'force',
        coreUnit: 'N',
        value: Float64Array.from(loadN),
        status: new Uint8Array(count),
      },
    ],
  };
}
