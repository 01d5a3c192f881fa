/** Which readings belong to a window between two stresses of the loading. */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { columnValue } from '../curve/channel.ts';

/**
 * From the last reading below `lowerMpa` to the first above `upperMpa`, those two excluded. So an unloading that
 * goes below the window before the yield leaves the reloading branch, and noise at the ends doesn't pick readings
 * by their error. A single reading that strays beyond a bound doesn't move it.
 */
export function windowRange(
  stress: Channel,
  { from, to }: IndexRange,
  lowerMpa: number,
  upperMpa: number,
): IndexRange {
  const { column } = stress;
  const lower = columnValue(stress, lowerMpa);
  const upper = columnValue(stress, upperMpa);
  const middle = (lower + upper) / 2;
  let end = from;
  while (end < to && !((column[end] as number) > upper && stays(column, end + 1, to, middle))) end += 1;
  let start = end - 1;
  while (
    start >= from &&
    !((column[start] as number) < lower && cameFromBelow(column, start - 1, from, middle))
  )
    start -= 1;
  return { from: Math.max(from, start + 1), to: end };
}

function stays(column: Float64Array, index: number, to: number, limit: number): boolean {
  let i = index;
  while (i < to && Number.isNaN(column[i])) i += 1;
  return i >= to || (column[i] as number) > limit;
}

function cameFromBelow(column: Float64Array, index: number, from: number, limit: number): boolean {
  let i = index;
  while (i >= from && Number.isNaN(column[i])) i -= 1;
  return i < from || (column[i] as number) < limit;
}

/** The first reading of the range that reaches a stress; `range.to` if none does. */
export function firstReaching(stress: Channel, { from, to }: IndexRange, mpa: number): number {
  const limit = columnValue(stress, mpa);
  const { column } = stress;
  let i = from;
  while (i < to && !((column[i] as number) >= limit)) i += 1;
  return i;
}
