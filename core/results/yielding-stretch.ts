/** What follows the upper yield: the first transient, the plateau with its lowest stress, the start of hardening. */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue, columnValue, lastPresent } from '../curve/channel.ts';
import { BLOCK_READINGS } from '../curve/record-blocks.ts';

export interface Yielding {
  /** Lowest stress while yielding, the first transient left out where yielding goes on after it. */
  readonly lowerIndex: number;
  readonly lowerMpa: number;
  /** Readings that the lower yield is the mean of; 1 unless the record is noisy. */
  readonly lowerReadings: number;
  /** True where a first transient lower than the rest was left out. */
  readonly transientLeftOut: boolean;
  /** Lowest stress of all until hardening. */
  readonly lowestMpa: number;
  /** First reading of the uniform hardening; the end of the range where there is none. */
  readonly hardeningIndex: number;
  /** Strain as recorded at which the plateau's last minimum meets the steepest hardening; null without hardening. */
  readonly hardeningStrain: number | null;
  /** True where the stress later rises above its lowest by what a yield point needs. */
  readonly risesAgain: boolean;
  /** Strain over which the first fall to 99.5 % took. */
  readonly fallStrain: number;
  /** Strain from the upper yield until hardening. */
  readonly plateauStrain: number;
}

export interface YieldingInput {
  readonly stress: Channel;
  readonly strain: Channel;
  readonly range: IndexRange;
  readonly upperIndex: number;
  readonly upperMpa: number;
  readonly noiseMpa: number;
  /** Rise after the lowest stress that counts as hardening. */
  readonly neededMpa: number;
}

/** Yielding is looked at in steps of strain, the mean of each; fine enough for the shortest plateau worth the name. */
const STEP_STRAIN = 0.0004;
const STEPS_MAX = 400;
/** The plateau is over for good once the stress is this part above its lowest. */
const HARDENED_FRACTION = 0.05;
/** A transient is over within this many steps from the upper yield, and its end is as short. */
const TRANSIENT_STEPS_MAX = 10;
/** So many steps within this fraction of each other are a plateau. */
const FLAT_STEPS = 8;
const FLAT_FRACTION = 0.025;
/** A first minimum counts as passed once the stress has risen by this part above it. */
const TRANSIENT_RISE = 0.0025;
/** Steps of hardening that are enough to see where it is steepest. */
const HARDENED_STEPS = 50;
/** The steepest hardening is looked for over stretches of this strain. */
const HARDENING_STRETCH_STEPS = 8;

/** Null where nothing is recorded after the upper yield. */
export function yieldingAfter(input: YieldingInput): Yielding | null {
  const { strain, range, upperIndex, upperMpa } = input;
  const steps = strainSteps(input);
  if (steps.length < 2) return null;
  const lastPlateau = lastPlateauStep(steps, upperMpa);
  const hardeningIndex = steps[lastPlateau + 1]?.from ?? range.to;
  const plateau: IndexRange = { from: upperIndex + 1, to: hardeningIndex };
  const lower = lowerYield(input, plateau, steps.slice(0, lastPlateau + 1));
  const upperStrain = channelValue(strain, upperIndex);
  const start = hardeningStart(steps, lastPlateau);
  return {
    lowerIndex: lower.index,
    lowerMpa: lower.mpa,
    lowerReadings: lower.readings,
    transientLeftOut: lower.transientLeftOut,
    lowestMpa: lower.lowestMpa,
    hardeningIndex,
    hardeningStrain: start,
    risesAgain: risesAgain(input, lower.lowestIndex, lower.lowestMpa),
    fallStrain: channelValue(strain, firstBelow(input, 0.995 * upperMpa)) - upperStrain,
    plateauStrain: (start ?? channelValue(strain, Math.max(upperIndex, hardeningIndex - 1))) - upperStrain,
  };
}

function risesAgain({ stress, range, neededMpa }: YieldingInput, from: number, lowestMpa: number): boolean {
  const limit = columnValue(stress, lowestMpa + neededMpa);
  for (let i = from; i < range.to; i++) if ((stress.column[i] as number) >= limit) return true;
  return false;
}

interface Step {
  /** First reading of the step. */
  readonly from: number;
  readonly readings: number;
  readonly stress: number;
  readonly strain: number;
}

/**
 * Means over equal steps of strain, by first passage, so that noise in the strain doesn't scatter the readings; until
 * the hardening after the plateau has been seen.
 */
function strainSteps({ stress, strain, range, upperIndex, upperMpa }: YieldingInput): Step[] {
  const steps: Step[] = [];
  const origin = strain.column[upperIndex] as number;
  const width = STEP_STRAIN / strain.factor;
  let lowest = Infinity;
  let hardened = 0;
  let from = upperIndex + 1;
  while (from < range.to && steps.length < STEPS_MAX && hardened <= HARDENED_STEPS) {
    const step = nextStep(stress, strain, { from, to: range.to }, origin, width);
    from += step.passed;
    if (step.readings === 0) continue;
    steps.push(step);
    lowest = Math.min(lowest, step.stress);
    if (step.stress > upperMpa || step.stress > (1 + HARDENED_FRACTION) * lowest) hardened += 1;
    if (hardened > 0 && hardened % FLAT_STEPS === 0) {
      const begin = plateauFrom(steps);
      // What rose was the end of the transient, not the hardening.
      if (begin > 0 && lowest < lowestOfAll(steps, begin)) {
        lowest = lowestOfAll(steps, begin);
        hardened = 0;
      }
    }
  }
  return steps;
}

const lowestOfAll = (steps: readonly Step[], from: number): number =>
  steps.slice(from).reduce((low, step) => Math.min(low, step.stress), Infinity);

/**
 * Step from which the plateau counts: 0, or the first step after a transient so deep that the rise out of it would
 * pass for hardening. That it is none shows in what follows: the stress stays level.
 */
function plateauFrom(steps: readonly Step[]): number {
  const early = steps.slice(0, TRANSIENT_STEPS_MAX);
  const bottom = Math.min(...early.map((step) => step.stress));
  const lowest = early.findIndex((step) => step.stress === bottom);
  const out = steps.findIndex((step, k) => k > lowest && step.stress > (1 + HARDENED_FRACTION) * bottom);
  if (out < 0 || out - lowest > TRANSIENT_STEPS_MAX) return 0;
  // Out of the transient, the last of the rise is passed before the level is looked at.
  for (let from = out; from <= out + TRANSIENT_STEPS_MAX; from++) {
    const after = steps.slice(from, from + FLAT_STEPS).map((step) => step.stress);
    if (after.length < FLAT_STEPS) return 0;
    const low = Math.min(...after);
    if (Math.max(...after) <= (1 + FLAT_FRACTION) * low) return from;
  }
  return 0;
}

/** Mean of the readings up to the first that passes the next edge of the equal steps; `passed`: readings gone through. */
function nextStep(
  stress: Channel,
  strain: Channel,
  { from, to }: IndexRange,
  origin: number,
  width: number,
): Step & { readonly passed: number } {
  const sums: StepSums = { edge: Infinity, readings: 0, x: 0, y: 0 };
  let i = from;
  while (i < to) {
    const end = Math.min(to, i + BLOCK_READINGS);
    i = addToEdge(stress.column, strain.column, i, end, origin, width, sums);
    if (i < end) break;
  }
  return {
    from,
    passed: i - from,
    readings: sums.readings,
    stress: (sums.y / sums.readings - stress.zero) * stress.factor,
    strain: (sums.x / sums.readings - strain.zero) * strain.factor,
  };
}

interface StepSums {
  /** Strain as in its column at which the step ends; Infinity before its first reading. */
  edge: number;
  readings: number;
  x: number;
  y: number;
}

/** Adds readings up to the first beyond the edge, whose index it returns, or `to`. Short, so that it is fast at once. */
function addToEdge(
  ys: Float64Array,
  xs: Float64Array,
  from: number,
  to: number,
  origin: number,
  width: number,
  sums: StepSums,
): number {
  let { edge, readings, x: sx, y: sy } = sums;
  let i = from;
  for (; i < to; i++) {
    const x = xs[i] as number;
    const y = ys[i] as number;
    if (x >= edge) break;
    if (!(x === x && y === y)) continue;
    if (readings === 0) edge = origin + width * Math.max(1, 1 + Math.floor((x - origin) / width));
    readings += 1;
    sx += x;
    sy += y;
  }
  sums.edge = edge;
  sums.readings = readings;
  sums.x = sx;
  sums.y = sy;
  return i;
}

/** The last step that is no higher than one before it, before the stress has left the plateau for good or passed ReH. */
function lastPlateauStep(steps: readonly Step[], upperMpa: number): number {
  let lowest = Infinity;
  let highest = -Infinity;
  const begin = plateauFrom(steps);
  let last = begin;
  for (const [k, step] of steps.entries()) {
    if (k < begin) continue;
    lowest = Math.min(lowest, step.stress);
    if (step.stress > upperMpa && k > begin) break;
    if (step.stress > (1 + HARDENED_FRACTION) * lowest && k > begin && step.stress > highest) break;
    // The fall itself is no plateau: heights count from the lowest step on.
    if (step.stress <= lowest) highest = -Infinity;
    if (step.stress <= highest || step.stress <= lowest) last = k;
    highest = Math.max(highest, step.stress);
  }
  return last;
}

interface LowerYield {
  readonly index: number;
  readonly mpa: number;
  /** Readings that the stress is the mean of; 1 where it is a single reading. */
  readonly readings: number;
  readonly lowestMpa: number;
  readonly lowestIndex: number;
  readonly transientLeftOut: boolean;
}

/**
 * The first transient ends where the stress, after its first minimum, first reaches the level of the plateau. The
 * lower yield is the lowest after that, if yielding goes on; else the first minimum itself.
 */
function lowerYield(
  { stress, strain, upperMpa, noiseMpa }: YieldingInput,
  plateau: IndexRange,
  plateauSteps: readonly Step[],
): LowerYield {
  const ys = stress.column;
  const rise = Math.max(TRANSIENT_RISE * upperMpa, 4 * noiseMpa) / stress.factor;
  let first = plateau.from;
  let i = plateau.from;
  for (; i < plateau.to; i++) {
    const y = ys[i] as number;
    if (y < (ys[first] as number) || Number.isNaN(ys[first])) first = i;
    else if (y > (ys[first] as number) + rise) break;
  }
  const level = columnValue(
    stress,
    middleOf(plateauSteps, i) - Math.max(2 * noiseMpa, LEVEL_REACHED * upperMpa),
  );
  while (i < plateau.to && !((ys[i] as number) >= level)) i += 1;
  const transientEnd = i;
  let later = -1;
  for (; i < plateau.to; i += BLOCK_READINGS)
    later = lowestIn(ys, i, Math.min(plateau.to, i + BLOCK_READINGS), later);
  const lowestIndex = later >= 0 && (ys[later] as number) < (ys[first] as number) ? later : first;
  // Where the stress only rises after the first minimum, there is no yielding left to read a lower yield from.
  const goesOn =
    channelValue(strain, lastPresent(strain.column, plateau.to - 1, plateau.from)) -
    channelValue(strain, first);
  const yieldsOn = later >= 0 && goesOn > YIELDS_ON_STRAIN;
  const index = yieldsOn ? later : lowestIndex;
  const lowestMpa = channelValue(stress, lowestIndex);
  const transientLeftOut = yieldsOn && lowestIndex === first;
  // In a noisy record the lowest reading is the lowest error; the mean of a small step of strain is not.
  const noisy = noiseMpa > NOISY_FRACTION * upperMpa;
  const steps = plateauSteps.filter(
    (step) => step.from >= transientEnd && step.readings >= STEP_READINGS_MIN,
  );
  const lowestStep = noisy && yieldsOn ? lowestOf(steps) : null;
  return lowestStep === null
    ? { index, mpa: channelValue(stress, index), readings: 1, lowestMpa, lowestIndex, transientLeftOut }
    : {
        index: lowestStep.from + Math.floor(lowestStep.readings / 2),
        mpa: lowestStep.stress,
        readings: lowestStep.readings,
        lowestMpa,
        lowestIndex,
        transientLeftOut,
      };
}

/** The first of the lowest readings, of one met before and those of a stretch; −1 where none is there. */
function lowestIn(ys: Float64Array, from: number, to: number, before: number): number {
  let index = before;
  let lowest = before < 0 ? Infinity : (ys[before] as number);
  for (let i = from; i < to; i++) {
    const y = ys[i] as number;
    if (y < lowest || (index < 0 && y === y)) {
      lowest = y;
      index = i;
    }
  }
  return index;
}

/** The plateau's level counts as reached this part of the upper yield below it. */
const LEVEL_REACHED = 0.0002;
/** Noise above this part of the upper yield, and single readings don't tell the lower yield any more. */
const NOISY_FRACTION = 0.001;
const STEP_READINGS_MIN = 4;

function lowestOf(steps: readonly Step[]): Step | null {
  let lowest: Step | null = null;
  for (const step of steps) if (lowest === null || step.stress < lowest.stress) lowest = step;
  return lowest;
}

/** Middle stress of the steps that begin at or after a reading; −∞ where there is none. */
function middleOf(steps: readonly Step[], from: number): number {
  const stresses = steps.filter((s) => s.from >= from).map((s) => s.stress);
  stresses.sort((a, b) => a - b);
  return stresses[Math.floor((stresses.length - 1) / 2)] ?? -Infinity;
}

/** Yielding that goes on for this strain after the first minimum makes that a transient. */
const YIELDS_ON_STRAIN = 2.5 * STEP_STRAIN;

function hardeningStart(steps: readonly Step[], lastPlateau: number): number | null {
  const bottom = lastMinimum(steps, lastPlateau);
  let steepest: { slope: number; strain: number; stress: number } | null = null;
  const end = Math.min(steps.length, lastPlateau + 1 + 6 * HARDENING_STRETCH_STEPS);
  for (let a = lastPlateau; a + 2 < end; a++) {
    const b = Math.min(a + HARDENING_STRETCH_STEPS, end - 1);
    if (b - a < 2) break;
    const line = lineThrough(steps, a, b);
    if (line.slope > 0 && (steepest === null || line.slope > steepest.slope)) steepest = line;
  }
  if (steepest === null || bottom === undefined) return null;
  return steepest.strain + (bottom.stress - steepest.stress) / steepest.slope;
}

/** The last local minimum at or before the last step of the plateau. */
function lastMinimum(steps: readonly Step[], lastPlateau: number): Step | undefined {
  let k = lastPlateau;
  while (k > 0 && (steps[k - 1]?.stress ?? Infinity) < (steps[k]?.stress ?? Infinity)) k -= 1;
  return steps[k];
}

function lineThrough(
  steps: readonly Step[],
  a: number,
  b: number,
): { slope: number; strain: number; stress: number } {
  let n = 0;
  let sx = 0;
  let sy = 0;
  for (let k = a; k <= b; k++) {
    n += 1;
    sx += steps[k]?.strain ?? 0;
    sy += steps[k]?.stress ?? 0;
  }
  let sxx = 0;
  let sxy = 0;
  for (let k = a; k <= b; k++) {
    const x = (steps[k]?.strain ?? 0) - sx / n;
    sxx += x * x;
    sxy += x * ((steps[k]?.stress ?? 0) - sy / n);
  }
  return { slope: sxx > 0 ? sxy / sxx : 0, strain: sx / n, stress: sy / n };
}

/** First reading after the upper yield below a stress; the last reading if none is. */
function firstBelow({ stress, range, upperIndex }: YieldingInput, mpa: number): number {
  let i = upperIndex + 1;
  while (i < range.to - 1 && !(channelValue(stress, i) < mpa)) i += 1;
  return i;
}
