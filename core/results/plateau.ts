/** The stretch at the maximum force: a plateau counts by its mid-point (ISO 6892-1, Ag and Agt, from memory). */
import type { Channel } from '../curve/channel.ts';

export interface Plateau {
  readonly firstIndex: number;
  readonly lastIndex: number;
}

/**
 * From the first to the last reading that shows the maximum to within the channel's step, as long as nothing between
 * them is lower by more than that step. On a fine channel that is the one largest reading.
 */
export function plateauAt(load: Channel, index: number, endIndex: number, stepColumn: number): Plateau {
  const { column } = load;
  const low = (column[index] as number) - stepColumn;
  let lastIndex = index;
  for (let i = index + 1; i <= endIndex; i++) {
    const value = column[i] as number;
    if (value < low) break;
    if (value >= (column[index] as number)) lastIndex = i;
  }
  return { firstIndex: index, lastIndex };
}

/** Readings from which the step of a channel is told. */
const STEP_READINGS = 2_000;
/** A channel is coarse when at least this part of its readings repeat the one before. */
const REPEATS_MIN = 0.05;

/** The smallest step of a coarse channel about a reading, in the column's unit; 0 for a fine one. */
export function coarseStep({ column }: Channel, aboutIndex: number): number {
  const from = Math.max(1, aboutIndex - STEP_READINGS / 2);
  const to = Math.min(column.length, aboutIndex + STEP_READINGS / 2);
  let step = Infinity;
  let repeats = 0;
  let count = 0;
  for (let i = from; i < to; i++) {
    const difference = Math.abs((column[i] as number) - (column[i - 1] as number));
    if (difference !== difference) continue;
    count += 1;
    if (difference === 0) repeats += 1;
    else if (difference < step) step = difference;
  }
  return count > 0 && repeats >= REPEATS_MIN * count && Number.isFinite(step) ? step * 1.000001 : 0;
}
