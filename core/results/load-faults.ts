/**
 * Faults of the load channel that make a confident wrong strength: it stands still while the extension goes on (a
 * readout that hangs, the end of a range), or steps while the specimen doesn't (a tare, a change of range). Looked
 * for while the curve rises steeply, and about the maximum.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';
import { BLOCK_READINGS, type ColumnBlocks } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import { readingNumber } from './finding.ts';
import { noisyLoadStep } from './noisy-load-step.ts';

export interface LoadFault {
  readonly kind: 'stands-still' | 'steps';
  /** First and last reading of it. */
  readonly from: number;
  readonly to: number;
  /** "the load stands still at 254.6 MPa from reading no. 120 to no. 180 while the extension goes on". */
  readonly clause: string;
}

export interface LoadFaultsInput {
  readonly stress: Channel;
  readonly strain: Channel;
  /** The steep part; what follows it up to `endIndex` is looked through for lone steps. */
  readonly range: IndexRange;
  /** Last reading before the break, or of the record. */
  readonly endIndex: number;
  /** Of the load. */
  readonly blocks: ColumnBlocks;
  readonly peakMpa: number;
  readonly slopeMpa: number;
  /** Standard deviation of the noise in the elastic part, MPa. */
  readonly noiseMpa: number;
}

/** Readings in a row that are equal to the last digit, where the others never are. */
const EQUAL_READINGS_MIN = 20;
/** Noise below this part of the maximum is none. */
const NOISE_PART = 1e-5;
/** Strain that goes by meanwhile. */
const EQUAL_STRAIN = 2e-4;
/** A channel in which this part of the other readings repeat is coarse, and equal readings say nothing. */
const REPEATS_MAX = 0.02;
/** Differences of steps below this part of the maximum are none. */
const DUST_PART = 1e-6;
/** A step of the load worth looking at, as a part of the maximum, and against the steps beside it. */
const STEP_PART = 0.01;
const STEP_BEYOND = 5;
const BESIDE = 8;
/** What the extension must at least do for such a step to be real, as a part of elastic. */
const FOLLOWS_PART = 0.3;
/** What the step is worth in extension, against the scatter of the extension's steps beside it. */
const SCATTER_BEYOND = 3;
/** Readings on either side of a step on the flat, how far the load may turn off there, and how even the extension is. */
const FLAT_BESIDE = 24;
/** Larger than any step beside it deviates, by this factor; that it stays is seen from the rest. */
const FLAT_BEYOND = 3;
/** Steps of a coarse channel that a fault is at least. */
const FLAT_QUANTA = 3.5;
const PARALLEL_PART = 0.25;
/** Noise above this part of the least step hides one in single readings. */
const HIDING_NOISE_PART = 0.08;
const EVEN_STEPS = 2.5;
const EVEN_STRAIN = 2e-5;
const FLAT_STEPS_MAX = 2;
/** The curve rises on both sides at least by this part of the elastic slope. */
const STEEP_PART = 0.3;

export function loadFaults(input: LoadFaultsInput): LoadFault[] {
  const { stress, strain, range, peakMpa, noiseMpa } = input;
  const ys = stress.column;
  const least = (STEP_PART * peakMpa) / stress.factor;
  const seen: StepsSeen = {
    longest: { from: range.from, to: range.from },
    runFrom: range.from,
    repeats: 0,
    quantum: Infinity,
  };
  const dust = (DUST_PART * peakMpa) / stress.factor;
  const steps: LoadFault[] = [];
  for (let from = range.from + 1; from < range.to; from += BLOCK_READINGS) {
    const to = Math.min(range.to, from + BLOCK_READINGS);
    const largest = lookAtSteps(ys, from, to, from - 2 >= range.from, dust, seen);
    for (let i = from; i < to && largest > least && steps.length === 0; i++) {
      if (!(Math.abs((ys[i] as number) - (ys[i - 1] as number)) > least)) continue;
      const found = stepAt(input, i);
      if (found !== null) steps.push(found);
    }
  }
  const { longest, repeats, quantum } = seen;
  const equal = longest.to - longest.from;
  const others = repeats - equal;
  const strained = channelValue(strain, longest.to) - channelValue(strain, longest.from);
  // On a plateau a channel without noise, or coarser than its noise, shows equal readings too.
  const noisy = noiseMpa > Math.max(quantum * stress.factor, NOISE_PART * peakMpa);
  if (steps.length === 0) steps.push(...stepsOnTheFlat(input, quantum * stress.factor));
  if (steps.length === 0) steps.push(...stepInNoise(input));
  const still =
    noisy &&
    equal >= EQUAL_READINGS_MIN &&
    others <= REPEATS_MAX * (range.to - range.from) &&
    strained > EQUAL_STRAIN;
  return still ? [stillFault(input, longest), ...steps] : steps;
}

/**
 * A step of the load where the curve is flat: the load shifts from one reading to the next and goes on parallel to what
 * it did, while the extension goes on evenly. A serration comes back, a tear changes the way the load goes.
 */
function stepsOnTheFlat(input: LoadFaultsInput, quantumMpa: number): LoadFault[] {
  const { stress, blocks, range, endIndex, peakMpa } = input;
  const ys = stress.column;
  const { largest } = blocks;
  const least = (STEP_PART * peakMpa) / stress.factor;
  const found: LoadFault[] = [];
  for (let i = range.to; i <= endIndex;) {
    const k = Math.floor(i / BLOCK_READINGS);
    const to = Math.min(endIndex + 1, (k + 1) * BLOCK_READINGS);
    const shifts = turns(largest, k, 0.4 * least);
    for (; shifts && i < to; i++) {
      if (!(Math.abs((ys[i] as number) - (ys[i - 1] as number)) > least)) continue;
      const fault = flatStepAt(input, i, quantumMpa);
      if (fault !== null) found.push(fault);
      // Several are the way of the record (serrations), and none of them is sure.
      if (found.length > FLAT_STEPS_MAX) return [];
    }
    i = to;
  }
  return found;
}

/** A step on the flat that hides in the noise of single readings. */
function stepInNoise({ stress, strain, range, endIndex, peakMpa, noiseMpa }: LoadFaultsInput): LoadFault[] {
  if (noiseMpa < HIDING_NOISE_PART * STEP_PART * peakMpa) return [];
  const flat = { from: range.to, to: endIndex + 1 };
  const step = noisyLoadStep(stress, strain, flat, STEP_PART * peakMpa);
  return step === null
    ? []
    : [
        {
          kind: 'steps',
          from: step.index,
          to: step.index,
          clause: `the load steps by ${numberText(step.stressMpa, 2)} MPa about reading ${readingNumber(step.index)} and goes on as before, while the extension shows nothing of it`,
        },
      ];
}

/**
 * A step that stays, in this stretch or at its edge, makes the largest loads of the stretches about it grow unevenly, by
 * half of it or more.
 */
function turns(largest: Float64Array, k: number, limit: number): boolean {
  const a = (largest[k - 1] as number) - (largest[k - 2] as number);
  const b = (largest[k] as number) - (largest[k - 1] as number);
  const c = (largest[k + 1] as number) - (largest[k] as number);
  const d = (largest[k + 2] as number) - (largest[k + 1] as number);
  return !(Math.max(a, b, c, d) - Math.min(a, b, c, d) <= limit);
}

function flatStepAt(
  { stress, strain, endIndex, peakMpa }: LoadFaultsInput,
  index: number,
  quantumMpa: number,
): LoadFault | null {
  if (index - FLAT_BESIDE - 1 < 0 || index + FLAT_BESIDE > endIndex) return null;
  const y = (k: number): number => channelValue(stress, index + k);
  const x = (k: number): number => channelValue(strain, index + k);
  const before: number[] = [];
  const after: number[] = [];
  const besideX: number[] = [];
  for (let k = 1; k <= FLAT_BESIDE; k++) {
    before.push(y(-k) - y(-k - 1));
    after.push(y(k) - y(k - 1));
    besideX.push(Math.abs(x(-k) - x(-k - 1)), Math.abs(x(k) - x(k - 1)));
  }
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  const usual = (mean(before) + mean(after)) / 2;
  const excess = y(0) - y(-1) - usual;
  if (!(Math.abs(excess) >= STEP_PART * peakMpa)) return null;
  if (![...before, ...after].every((step) => FLAT_BEYOND * Math.abs(step - usual) < Math.abs(excess)))
    return null;
  // Where readings repeat the channel may be coarse, and one step of its own is no fault.
  if ([...before, ...after].includes(0) && Math.abs(excess) < FLAT_QUANTA * quantumMpa) return null;
  // It goes on parallel to what it did before.
  if (!(FLAT_BESIDE * Math.abs(mean(after) - mean(before)) < PARALLEL_PART * Math.abs(excess))) return null;
  // The extension goes on evenly: neither readings that are missing nor a tear.
  if (!(Math.abs(x(0) - x(-1)) <= Math.max(EVEN_STEPS * mean(besideX), EVEN_STRAIN))) return null;
  return {
    kind: 'steps',
    from: index,
    to: index,
    clause: `the load steps by ${numberText(excess, 3)} MPa after reading ${readingNumber(index - 1)} and goes on as before, while the extension shows nothing of it`,
  };
}

interface StepsSeen {
  /** The longest run of equal readings. */
  longest: IndexRange;
  /** Where the run that goes on now began. */
  runFrom: number;
  /** Readings equal to the one before. */
  repeats: number;
  /** Least difference of steps that is more than dust. */
  quantum: number;
}

/** Steps of the load over one stretch; the largest of them. Short and called often, so that it is fast at once. */
function lookAtSteps(
  ys: Float64Array,
  from: number,
  to: number,
  /** The step before the stretch counts. */
  goesOn: boolean,
  dust: number,
  seen: StepsSeen,
): number {
  let before = ys[from - 1] as number;
  let stepBefore = goesOn ? before - (ys[from - 2] as number) : Number.NaN;
  let { quantum } = seen;
  let largest = 0;
  for (let i = from; i < to; i++) {
    const y = ys[i] as number;
    const step = y - before;
    before = y;
    // Second differences are whole steps of a coarse channel, and anything on a fine one.
    const bend = Math.abs(step - stepBefore);
    if (bend > dust && bend < quantum) quantum = bend;
    stepBefore = step;
    if (step === 0) {
      seen.repeats += 1;
      if (i - seen.runFrom > seen.longest.to - seen.longest.from)
        seen.longest = { from: seen.runFrom, to: i };
      continue;
    }
    seen.runFrom = i;
    const size = Math.abs(step);
    if (size > largest) largest = size;
  }
  seen.quantum = quantum;
  return largest;
}

function stillFault({ stress }: LoadFaultsInput, { from, to }: IndexRange): LoadFault {
  return {
    kind: 'stands-still',
    from,
    to,
    clause: `the load stands still at ${numberText(channelValue(stress, from), 4)} MPa from reading ${readingNumber(from)} to ${readingNumber(to)}, equal to the last digit while the extension goes on`,
  };
}

/** True for 8 of 4, also where arithmetic left some dust; false for 0. */
const isMultiple = (value: number, of: number): boolean =>
  value !== 0 && Math.abs(value / of - Math.round(value / of)) < DUST_PART && Math.round(value / of) !== 0;

/** A step of the load that the specimen can't have made: the extension doesn't go along, before and after are steep. */
function stepAt(
  { stress, strain, range, peakMpa, slopeMpa }: LoadFaultsInput,
  index: number,
): LoadFault | null {
  if (index - BESIDE - 1 < range.from || index + BESIDE >= range.to) return null;
  const y = (k: number): number => channelValue(stress, index + k);
  const x = (k: number): number => channelValue(strain, index + k);
  const besideY: number[] = [];
  const besideX: number[] = [];
  for (let k = 1; k <= BESIDE; k++) {
    besideY.push(y(-k) - y(-k - 1), y(k) - y(k - 1));
    besideX.push(x(-k) - x(-k - 1), x(k) - x(k - 1));
  }
  const usual = besideY.toSorted((a, b) => a - b)[BESIDE] ?? 0;
  const excess = y(0) - y(-1) - usual;
  if (besideY.some((step) => !(STEP_BEYOND * Math.abs(step - usual) < Math.abs(excess)))) return null;
  if (Math.abs(excess) < STEP_PART * peakMpa) return null;
  // Steps of a coarse channel differ by whole steps of its own, and a few of those are no fault.
  const gaps = besideY.toSorted((a, b) => a - b).map((step, i, sorted) => step - (sorted[i - 1] ?? step));
  const quanta = gaps.filter((gap) => gap > DUST_PART * peakMpa);
  const quantum = quanta.length > 0 ? Math.min(...quanta) : isMultiple(usual, excess) ? Math.abs(excess) : 0;
  if (Math.abs(excess) < FLAT_QUANTA * quantum) return null;
  const usualX = besideX.toSorted((a, b) => a - b)[BESIDE] ?? 0;
  const strained = x(0) - x(-1) - usualX;
  if (Math.sign(excess) * strained * slopeMpa > FOLLOWS_PART * Math.abs(excess)) return null;
  // An extension that scatters by what the step is worth can't show whether it went along.
  const scatterX = Math.sqrt(besideX.reduce((sum, step) => sum + (step - usualX) ** 2, 0) / besideX.length);
  if (!(Math.abs(excess) > SCATTER_BEYOND * scatterX * slopeMpa)) return null;
  const before = (y(-1) - y(-1 - BESIDE)) / (x(-1) - x(-1 - BESIDE));
  const after = (y(BESIDE) - y(0)) / (x(BESIDE) - x(0));
  if (!(before > STEEP_PART * slopeMpa && after > STEEP_PART * slopeMpa)) return null;
  return {
    kind: 'steps',
    from: index,
    to: index,
    clause: `the load steps by ${numberText(excess, 3)} MPa after reading ${readingNumber(index - 1)} while the extension does not`,
  };
}
