/**
 * Small slips of the extensometer while the curve still rises steeply: one step of the extension far beyond the steps
 * beside it, without the force that such a step would take. Told by the readings beside it, their scatter and the
 * channel's resolution, so that a slip of 0.05 % in the elastic part is seen, and yielding, unloading, a pause, a coarse
 * channel or missing readings are not taken for one. Where the curve is flat a slip moves no strength and is not looked
 * for; large ones are recognised everywhere (extension-trust.ts).
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue, lastPresent } from '../curve/channel.ts';
import { BLOCK_READINGS, type ExtensionBlocks } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import { readingNumber } from './finding.ts';

export interface ExtensionStep {
  /** First reading after the step. */
  readonly index: number;
  /** What the extension moved too far (below zero: back), as a strain. */
  readonly strain: number;
  /** First reading of a slip that took many (spread-slip.ts); absent for a step from one reading to the next. */
  readonly from?: number;
}

export interface ExtensionStepsInput {
  readonly stress: Channel;
  readonly strain: Channel;
  readonly startIndex: number;
  /** Last reading before the break, or of the record. */
  readonly endIndex: number;
  /** First reading past the part of the curve where small faults matter (`lookedAtEnd`). */
  readonly lookedAtEnd: number;
  readonly peakMpa: number;
  /** Time of each reading, s. */
  readonly timeS?: Float64Array;
}

/** A smaller step is below what class 1 of ISO 9513 allows an extensometer (3 µm over 50 mm; from memory). */
const STEP_STRAIN_MIN = 6e-5;
/** Past this strain no metal's curve is so steep that a small slip would move a strength. */
const LOOKED_AT_STRAIN = 0.02;
/** Steps beside it on either side that tell what is usual, the nearest left out; and how many there must be. */
const NEIGHBOURS = 16;
const NEIGHBOURS_MIN = 4;
/** Larger than any step beside it deviates, and than their mean deviation, by these factors. */
const BEYOND_LARGEST = 3;
const BEYOND_MEAN = 7;
/** Steps of a coarse channel. */
const QUANTA_MIN = 3.5;
/** A channel is coarse when this part of its readings repeat the one before. */
const REPEATS_OF_A_COARSE_CHANNEL = 0.05;
/** Nearest steps on either side among which the force's step must lie. */
const FORCE_NEIGHBOURS = 8;
/** The force goes on as before while its step is within this many mean deviations of the steps beside it. */
const FORCE_BEYOND_MEAN = 4;
/** Or of what the extension's step would be worth. */
const FOLLOWS_PART = 0.3;
/** Part of the step that must stay. */
const STAYS_PART = 0.6;
/** Readings and strain on either side over which the slope of the curve is told. */
const TANGENT_READINGS_MAX = 128;
const TANGENT_STRAIN = 4e-4;
/** Force that a slip must be worth, as a part of the maximum, to matter; and by which the force may stray. */
const FORCE_PART_MIN = 0.001;
/** An interval this many times the usual one hides readings. */
const MISSING_INTERVALS = 3;
/** More than this, and it is the way of the record (serrations), not slips. */
export const STEPS_MAX = 12;

/** Ascending; empty where there are none or where steps are the way of the record. */
export function extensionSteps(input: ExtensionStepsInput): ExtensionStep[] {
  const { strain, startIndex } = input;
  const xs = strain.column;
  const least = STEP_STRAIN_MIN / strain.factor;
  const range = { from: startIndex, to: input.lookedAtEnd };
  let quantum: number | null = null;
  const steps: ExtensionStep[] = [];
  let i = startIndex + 1;
  while (i < range.to) {
    const end = Math.min(range.to, i + BLOCK_READINGS);
    i = notBeside(xs, i, end, least);
    if (i >= end) continue;
    const before = Number.isNaN(xs[i]) ? -1 : lastPresent(xs, i - 1, startIndex);
    if (before >= 0 && Math.abs((xs[i] as number) - (xs[before] as number)) > least) {
      quantum ??= quantumOf(xs, range);
      const strained = slipAt(input, before, i, quantum);
      if (strained !== null) steps.push({ index: i, strain: strained });
      if (steps.length > STEPS_MAX) return [];
    }
    i += 1;
  }
  return steps;
}

/** The first reading that is not within `least` of the one before, or where either is absent; `to` if none is. */
function notBeside(xs: Float64Array, from: number, to: number, least: number): number {
  let before = xs[from - 1] as number;
  for (let i = from; i < to; i++) {
    const x = xs[i] as number;
    if (!(Math.abs(x - before) <= least)) return i;
    before = x;
  }
  return to;
}

/** First reading past the part of the curve where small faults matter. */
export function lookedAtEnd(
  strain: Channel,
  { largest }: ExtensionBlocks,
  startIndex: number,
  endIndex: number,
): number {
  const xs = strain.column;
  let i = startIndex;
  while (i <= endIndex && Number.isNaN(xs[i])) i += 1;
  const limit = (xs[i] ?? Number.NaN) + LOOKED_AT_STRAIN / strain.factor;
  while (i <= endIndex) {
    const k = Math.floor(i / BLOCK_READINGS);
    const to = Math.min(endIndex + 1, (k + 1) * BLOCK_READINGS);
    if ((largest[k] as number) > limit) for (; i < to; i++) if ((xs[i] as number) > limit) return i;
    i = to;
  }
  return i;
}

/** Step of a coarse channel, in its unit; 0 for a fine one. */
export function quantumOf(xs: Float64Array, { from, to }: IndexRange): number {
  let smallest = Infinity;
  let repeats = 0;
  for (let i = from + 1; i < to; i++) {
    const step = Math.abs((xs[i] as number) - (xs[i - 1] as number));
    if (step === 0) repeats += 1;
    else if (step < smallest) smallest = step;
  }
  return repeats > REPEATS_OF_A_COARSE_CHANNEL * (to - from) && Number.isFinite(smallest) ? smallest : 0;
}

/** What the extension slipped by between two readings, as a strain; null where it didn't. */
function slipAt(input: ExtensionStepsInput, before: number, index: number, quantum: number): number | null {
  const { stress, strain, timeS, peakMpa } = input;
  const xs = strain.column;
  const left = stepsBeside(input, before, -1);
  const right = stepsBeside(input, index, 1);
  if (left.extension.length < NEIGHBOURS_MIN || right.extension.length < NEIGHBOURS_MIN) return null;
  const extension = spreadOf([...left.extension, ...right.extension]);
  const excess = (xs[index] as number) - (xs[before] as number) - extension.usual;
  const size = Math.abs(excess);
  if (size < BEYOND_LARGEST * extension.largest || size < BEYOND_MEAN * extension.mean) return null;
  const slip = excess * strain.factor;
  if (size < QUANTA_MIN * quantum || Math.abs(slip) < STEP_STRAIN_MIN) return null;
  if (!stays(xs, before, index, input.endIndex, extension.usual, excess)) return null;
  if (timeS !== undefined && readingsMissing(timeS, before, index, input.startIndex)) return null;
  // On a plateau or past the maximum a slip moves no strength.
  const tangent = Math.min(tangentBeside(input, before, -1), tangentBeside(input, index, 1));
  const worthMpa = tangent * Math.abs(slip);
  if (!(worthMpa > FORCE_PART_MIN * peakMpa)) return null;
  // The force goes on as if nothing had happened: neither with the extension (missing readings, unloading) nor
  // against it, as a burst of yielding takes force away.
  const force = spreadOf([...left.stress, ...right.stress]);
  const forceExcess = channelValue(stress, index) - channelValue(stress, before) - force.usual;
  const unmoved = Math.max(
    FORCE_BEYOND_MEAN * force.mean + FORCE_PART_MIN * peakMpa,
    FOLLOWS_PART * worthMpa,
  );
  return Math.abs(forceExcess) > unmoved ? null : slip;
}

/** The middle step, and how far steps lie from it: the farthest, and the root of the mean square. */
function spreadOf(steps: readonly number[]): {
  readonly usual: number;
  readonly largest: number;
  readonly mean: number;
} {
  const usual = steps.toSorted((a, b) => a - b)[steps.length >> 1] ?? 0;
  const deviations = steps.map((step) => Math.abs(step - usual));
  const squares = deviations.reduce((sum, deviation) => sum + deviation * deviation, 0);
  return { usual, largest: Math.max(...deviations), mean: Math.sqrt(squares / steps.length) };
}

/** Steps between readings next to each other, from the gap outwards, the nearest of the extension left out. */
function stepsBeside(
  { stress, strain, startIndex, endIndex }: ExtensionStepsInput,
  from: number,
  direction: -1 | 1,
): { readonly extension: readonly number[]; readonly stress: readonly number[] } {
  const extension: number[] = [];
  const force: number[] = [];
  let x0 = Number.NaN;
  let y0 = Number.NaN;
  let seen = 0;
  for (let i = from; i >= startIndex && i <= endIndex && extension.length < NEIGHBOURS; i += direction) {
    const x = strain.column[i] as number;
    const y = stress.column[i] as number;
    if (!(x === x && y === y)) continue;
    if (seen > 1) extension.push(direction * (x - x0));
    if (seen > 0 && force.length < FORCE_NEIGHBOURS) force.push(direction * (y - y0) * stress.factor);
    x0 = x;
    y0 = y;
    seen += 1;
  }
  return { extension, stress: force };
}

/** Stress over strain beside the gap, from the means of the nearer and the farther half of the readings; MPa. */
function tangentBeside(
  { stress, strain, startIndex, endIndex }: ExtensionStepsInput,
  from: number,
  direction: -1 | 1,
): number {
  const xs: number[] = [];
  const ys: number[] = [];
  for (let i = from; i >= startIndex && i <= endIndex && xs.length < TANGENT_READINGS_MAX; i += direction) {
    const x = (strain.column[i] as number) * strain.factor;
    const y = (stress.column[i] as number) * stress.factor;
    if (!(x === x && y === y)) continue;
    xs.push(x);
    ys.push(y);
    if (xs.length >= NEIGHBOURS_MIN && Math.abs(x - (xs[0] ?? x)) > TANGENT_STRAIN) break;
  }
  const half = xs.length >> 1;
  const run = mean(xs, half, xs.length) - mean(xs, 0, half);
  const rise = mean(ys, half, ys.length) - mean(ys, 0, half);
  return direction * run > 0 ? rise / run : 0;
}

function mean(values: readonly number[], from: number, to: number): number {
  let total = 0;
  for (let k = from; k < to; k++) total += values[k] ?? 0;
  return total / (to - from);
}

/** The next readings stay where the step went. */
function stays(
  xs: Float64Array,
  before: number,
  index: number,
  end: number,
  usual: number,
  excess: number,
): boolean {
  const origin = xs[before] as number;
  let looked = 0;
  for (let i = index + 1; i <= end && looked < 3; i++) {
    const x = xs[i] as number;
    if (x !== x) continue;
    looked += 1;
    if (Math.sign(excess) * (x - origin - (looked + 1) * usual) < STAYS_PART * Math.abs(excess)) return false;
  }
  return looked === 3;
}

function readingsMissing(ts: Float64Array, before: number, index: number, from: number): boolean {
  const first = Math.max(from, before - NEIGHBOURS);
  const usual = ((ts[before] as number) - (ts[first] as number)) / (before - first);
  return usual > 0 && (ts[index] as number) - (ts[before] as number) > MISSING_INTERVALS * usual;
}

/** "jumped by 0.05 % after reading no. 123": a clause that can be built on. */
export function stepClause(steps: readonly ExtensionStep[]): string {
  const [first] = steps;
  if (first === undefined) return 'did not jump';
  const total = steps.reduce((sum, step) => sum + step.strain, 0);
  if (first.from !== undefined)
    return `grew by ${numberText(100 * total, 2)} % more than the force explains between reading ${readingNumber(first.from)} and reading ${readingNumber(first.index)}, after which the curve is as steep as the elastic line again`;
  const way = total < 0 ? 'slipped back' : 'jumped';
  const size = numberText(Math.abs(100 * total), 2);
  return steps.length === 1
    ? `${way} by ${size} % after reading ${readingNumber(first.index - 1)} without the force that this would take`
    : `${way} by ${size} % in all in ${String(steps.length)} steps, the first after reading ${readingNumber(first.index - 1)}, without the force that this would take`;
}
