/** A curve put together from the blocks of readings that a recorder hands out. */
import type { ReadingColumns } from '../contract/reading.ts';
import { CURVE_COLUMN, type Curve } from './curve.ts';

const QUANTITIES = ['force', 'extension', 'travel', 'stress', 'strain'] as const;

/**
 * Blocks follow each other from reading 0 on. Time is that of arrival; of several channels of one quantity the first
 * counts. Throws a RangeError where readings are missing between two blocks.
 */
export function curveOfReadings(
  blocks: readonly ReadingColumns[],
  gaps: readonly { readonly beforeSeq: number; readonly words: string }[],
): Curve {
  const length = blocks.reduce((sum, { count }) => sum + count, 0);
  const timeS = new Float64Array(length);
  const columns: Partial<Record<(typeof CURVE_COLUMN)[keyof typeof CURVE_COLUMN], Float64Array>> = { timeS };
  let at = 0;
  for (const block of blocks) {
    if (block.firstSeq !== at)
      throw new RangeError(`reading ${String(at)} is missing: a block begins at ${String(block.firstSeq)}`);
    for (let i = 0; i < block.count; i++) timeS[at + i] = (block.elapsedUs[i] ?? Number.NaN) / 1e6;
    for (const quantity of QUANTITIES) {
      const channel = block.channels.find((one) => one.quantity === quantity);
      if (channel === undefined) continue;
      (columns[CURVE_COLUMN[quantity]] ??= new Float64Array(length).fill(Number.NaN)).set(channel.value, at);
    }
    at += block.count;
  }
  return {
    length,
    ...columns,
    gaps: gaps.map(({ beforeSeq, words: cause }) => ({ beforeIndex: beforeSeq, durationS: 0, cause })),
  };
}
