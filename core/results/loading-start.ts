/** Where the loading begins: after slack, waiting and preload, before the elastic part. */
import type { Channel } from '../curve/channel.ts';
import { lastPresent } from '../curve/channel.ts';

/** Force that noise and slack don't reach, and force that is as good as none, as parts of the maximum. */
const LOADED_FRACTION = 0.1;
const UNLOADED_FRACTION = 0.01;

/** Index of the last reading that carries as good as no load before the loading; the first reading if none does. */
export function loadingStart(load: Channel, peakIndex: number): number {
  const { column, zero } = load;
  const peak = (column[peakIndex] as number) - zero;
  const loaded = zero + LOADED_FRACTION * peak;
  let first = 0;
  // Two in a row, so that one stray reading in the slack is not the loading.
  while (first < peakIndex && !((column[first] as number) >= loaded && holds(column, first + 1, loaded)))
    first += 1;
  const unloaded = zero + UNLOADED_FRACTION * peak;
  let start = first;
  while (start > 0 && !((column[start] as number) <= unloaded)) start -= 1;
  if ((column[start] as number) <= unloaded) return start;
  // Recorded from a preload on: the first reading there is.
  const present = lastPresent(column, 0, 0);
  return present >= 0 ? present : start;
}

function holds(column: Float64Array, index: number, limit: number): boolean {
  let i = index;
  while (i < column.length && Number.isNaN(column[i])) i += 1;
  return i >= column.length || (column[i] as number) >= limit / 2;
}
