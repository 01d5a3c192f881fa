/**
 * A step of the load that no single reading shows, because the load is noisy: seen in the means of many readings on
 * either side. It shifts the load within few readings and stays, the load goes on parallel to what it did, and the
 * extension goes on as before. Looked for where the curve is flat; yielding and serrations come several together.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';

export interface NoisyStep {
  /** First reading after it, to within a few. */
  readonly index: number;
  readonly stressMpa: number;
}

/** The record is looked at in cells of readings: few enough to cost nothing, long enough to still the noise. */
const CELL_READINGS_MIN = 24;
const CELLS_MAX = 400;
const CELLS_MIN = 20;
/** Of a long cell so many readings tell its mean. */
const SAMPLES_MAX = 64;
/** Cells on either side that tell how the load goes. */
const REACH = 3;
/** Against the root of the mean square of all others, and against the largest of them. */
const BEYOND_MEAN = 6.5;
const BEYOND_LARGEST = 2;
/** Where the step is: half a cell on either side shows at least this part of it, and slopes differ by less. */
const SHARP_PART = 0.6;
const PARALLEL_PART = 0.5;
/** The extension's rates on either side, and how far it may jump itself. */
const RATE_RATIO_MAX = 1.5;
const EVEN_STEPS = 2.5;
const EVEN_STRAIN = 2e-5;

/** The one step; null where there is none, or where others are nearly as large. */
export function noisyLoadStep(
  stress: Channel,
  strain: Channel,
  range: IndexRange,
  leastMpa: number,
): NoisyStep | null {
  const count = range.to - range.from;
  const length = Math.max(CELL_READINGS_MIN, Math.ceil(count / CELLS_MAX));
  const cells = Math.floor(count / length);
  if (cells < CELLS_MIN) return null;
  const means = cellMeans(stress, range.from, length, cells);
  const shifts = means.map((_, k) => shiftAt(means, k));
  let at = REACH;
  for (let k = REACH; k < cells - REACH; k++)
    if (Math.abs(shifts[k] as number) > Math.abs(shifts[at] as number)) at = k;
  const size = Math.abs(shifts[at] as number);
  if (!(size > leastMpa)) return null;
  let squares = 0;
  let others = 0;
  let largest = 0;
  for (let k = REACH; k < cells - REACH; k++) {
    const shift = Math.abs(shifts[k] as number);
    if (Math.abs(k - at) <= REACH + 1 || !(shift >= 0)) continue;
    squares += shift * shift;
    others += 1;
    if (shift > largest) largest = shift;
  }
  if (others < CELLS_MIN / 2) return null;
  if (size < BEYOND_MEAN * Math.sqrt(squares / others) || size < BEYOND_LARGEST * largest) return null;
  return stepNear(stress, strain, range, range.from + at * length, length, leastMpa);
}

function cellMeans({ column, zero, factor }: Channel, from: number, length: number, cells: number) {
  const stride = Math.ceil(length / SAMPLES_MAX);
  const means = new Float64Array(cells);
  for (let k = 0; k < cells; k++) {
    const start = from + k * length;
    let total = 0;
    let n = 0;
    for (let i = start; i < start + length; i += stride) {
      total += column[i] as number;
      n += 1;
    }
    means[k] = (total / n - zero) * factor;
  }
  return means;
}

/** What the load moved over one cell beyond the way it goes before and after. */
function shiftAt(means: Float64Array, k: number): number {
  const m = (j: number): number => means[k + j] ?? Number.NaN;
  return m(1) - m(-1) - (m(-1) - m(-REACH) + m(REACH) - m(1)) / 2;
}

/** Where about the cell the load steps, by how much, and whether it is a step at all. */
function stepNear(
  stress: Channel,
  strain: Channel,
  range: IndexRange,
  start: number,
  length: number,
  leastMpa: number,
): NoisyStep | null {
  let best: Sides | null = null;
  for (let i = start - length; i < start + 2 * length; i++) {
    const sides = sidesOf(stress, i, 2 * length, range);
    if (sides !== null && (best === null || Math.abs(sides.shift) > Math.abs(best.shift))) best = sides;
  }
  if (best === null || !(Math.abs(best.shift) > leastMpa)) return null;
  const { index, shift } = best;
  if (!(Math.abs(best.after - best.before) * 2 * length < PARALLEL_PART * Math.abs(shift))) return null;
  const near = sidesOf(stress, index, length >> 1, range);
  if (near === null || !(near.shift * Math.sign(shift) > SHARP_PART * Math.abs(shift))) return null;
  const extension = sidesOf(strain, index, 2 * length, range);
  if (extension === null) return null;
  const rate = Math.max(extension.before, extension.after);
  const even = Math.min(extension.before, extension.after) * RATE_RATIO_MAX >= rate;
  return even && Math.abs(extension.shift) <= Math.max(EVEN_STEPS * rate, EVEN_STRAIN)
    ? { index, stressMpa: shift }
    : null;
}

interface Sides {
  readonly index: number;
  /** Slopes before and after, per reading. */
  readonly before: number;
  readonly after: number;
  /** What the channel moved between the two readings beyond the mean slope. */
  readonly shift: number;
}

/** Straight lines through the readings on either side; null where they reach out of the range or a reading is absent. */
function sidesOf(channel: Channel, index: number, length: number, { from, to }: IndexRange): Sides | null {
  if (index - length < from || index + length > to) return null;
  const left = lineThrough(channel, index - length, length);
  const right = lineThrough(channel, index, length);
  const slope = (left.slope + right.slope) / 2;
  const shift = right.mean - left.mean - slope * length;
  return shift === shift ? { index, before: left.slope, after: right.slope, shift } : null;
}

function lineThrough(channel: Channel, from: number, length: number): { slope: number; mean: number } {
  const middle = (length - 1) / 2;
  let total = 0;
  let moment = 0;
  let square = 0;
  for (let k = 0; k < length; k++) {
    const y = channelValue(channel, from + k);
    total += y;
    moment += (k - middle) * y;
    square += (k - middle) ** 2;
  }
  return { slope: moment / square, mean: total / length };
}
