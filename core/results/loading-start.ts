/** Where the loading begins: after slack, waiting and preload, before the elastic part. */
import type { Channel } from '../curve/channel.ts';
import { type ColumnBlocks, firstAtLeast } from '../curve/record-blocks.ts';

/** Force that noise and slack don't reach, and force that is as good as none, as parts of the maximum. */
const LOADED_FRACTION = 0.1;
const UNLOADED_FRACTION = 0.01;

/** Index of the last reading that carries as good as no load before the loading; the first reading if none does. */
export function loadingStart(load: Channel, blocks: ColumnBlocks, peakIndex: number): number {
  const { column, zero } = load;
  const peak = (column[peakIndex] as number) - zero;
  const loaded = zero + LOADED_FRACTION * peak;
  let first = firstAtLeast(blocks, { from: 0, to: peakIndex }, loaded);
  // Two in a row, so that one stray reading in the slack is not the loading.
  while (first < peakIndex && !holds(column, first + 1, loaded))
    first = firstAtLeast(blocks, { from: first + 1, to: peakIndex }, loaded);
  const unloaded = zero + UNLOADED_FRACTION * peak;
  let start = first;
  while (start >= 0 && !((column[start] as number) <= unloaded)) start -= 1;
  if (start >= 0) return start;
  // Recorded from a preload on: the first reading there is.
  let present = 0;
  while (present < peakIndex && Number.isNaN(column[present])) present += 1;
  return present;
}

function holds(column: Float64Array, index: number, limit: number): boolean {
  let i = index;
  while (i < column.length && Number.isNaN(column[i])) i += 1;
  return i >= column.length || (column[i] as number) >= limit / 2;
}
