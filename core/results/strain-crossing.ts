/**
 * Where the curve first meets a line parallel to the elastic line (offset) or a vertical (total extension). Both are
 * a quantity that grows along the curve and reaches a target: plastic strain or strain.
 *
 * Readings inside an unloading loop don't count, a single stray reading doesn't either. With enough readings about
 * the target, stress is taken from a straight line through them, so that it doesn't carry the noise of one reading;
 * else by straight interpolation between the two readings.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';
import { BLOCK_READINGS } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import { readingNumber } from './finding.ts';

export interface CrossingInput {
  readonly stress: Channel;
  readonly strain: Channel;
  readonly range: IndexRange;
  /** Grown quantity = strain − zeroStrain − stress · compliance (1/MPa); compliance 0 for total strain. */
  readonly zeroStrain: number;
  readonly compliance: number;
  readonly target: number;
}

export interface Crossing {
  readonly stressMpa: number;
  /** First reading at or beyond the target. */
  readonly index: number;
  /** Last reading before it; the same as `index` where the range begins beyond the target. */
  readonly beforeIndex: number;
  readonly method: 'local-line' | 'between-two-readings';
  /** Readings of the local line, 2 otherwise. */
  readonly readings: number;
  /** Slope of stress over the grown quantity at the crossing, MPa. */
  readonly tangentMpa: number;
  /** Standard deviation of the readings about the local line, MPa; 0 between two readings. */
  readonly scatterMpa: number;
}

/** Strain behind the farthest reading from which on a reading is inside an unloading loop. */
const LOOP_STRAIN = 0.0002;
/** The local line reaches this far to either side, and needs this many readings. */
const LOCAL_STRAIN = 0.0002;
const LOCAL_READINGS_MIN = 12;
/** A local line is used only where the stress changes by less than this part over it, as no jump or corner does. */
const LOCAL_STRESS_CHANGE = 0.02;
const SLOPE_UNCERTAINTIES = 3;

/** Null where the target isn't reached within the range; `largest` says how far it got. */
export function findCrossing(
  input: CrossingInput,
):
  | { readonly found: true; readonly crossing: Crossing }
  | { readonly found: false; readonly largest: number } {
  const { stress, strain, range, zeroStrain, compliance, target } = input;
  const ys = stress.column;
  const xs = strain.column;
  const perX = strain.factor;
  const perY = compliance * stress.factor;
  const constant = -strain.zero * perX - zeroStrain + stress.zero * perY;
  const grownAt = (i: number): number => (xs[i] as number) * perX - (ys[i] as number) * perY + constant;
  const way: Way = {
    ...{ ys, xs, perX, perY, constant, target, loop: LOOP_STRAIN / strain.factor },
    ...{ farthest: -Infinity, before: -1, largest: -Infinity },
  };
  for (let i = range.from; i < range.to;) {
    const end = Math.min(range.to, i + BLOCK_READINGS);
    i = firstBeyond(way, i, end);
    if (i === end) continue;
    const grown = grownAt(i);
    if (holdsOn(i)) {
      const { before } = way;
      if (before < 0) return { found: true, crossing: single(input, i) };
      const beforeGrown = grownAt(before);
      const share = (target - beforeGrown) / (grown - beforeGrown);
      const yBefore = channelValue(stress, before);
      const yAfter = channelValue(stress, i);
      const between: Crossing = {
        stressMpa: yBefore + share * (yAfter - yBefore),
        index: i,
        beforeIndex: before,
        method: 'between-two-readings',
        readings: 2,
        tangentMpa: (yAfter - yBefore) / (grown - beforeGrown),
        scatterMpa: 0,
      };
      return { found: true, crossing: localLine(input, before, between) ?? between };
    }
    way.largest = Math.max(way.largest, grown);
    i += 1;
  }
  return { found: false, largest: way.largest };

  /** The next reading is beyond the target as well, or there is none. */
  function holdsOn(index: number): boolean {
    for (let i = index + 1; i < range.to; i++) {
      const grown = grownAt(i);
      if (grown === grown) return grown >= target - LOCAL_STRAIN / 4;
    }
    return true;
  }
}

/** The way along the curve towards the target, and how far it has come. */
interface Way {
  readonly ys: Float64Array;
  readonly xs: Float64Array;
  readonly perX: number;
  readonly perY: number;
  readonly constant: number;
  readonly target: number;
  readonly loop: number;
  farthest: number;
  /** The last reading before the target; −1 where there is none yet. */
  before: number;
  largest: number;
}

/** The first reading at or beyond the target; `to` where none is. Short and called often, so that it is fast at once. */
function firstBeyond(way: Way, from: number, to: number): number {
  const { ys, xs, perX, perY, constant, target, loop } = way;
  let { farthest, before, largest } = way;
  let i = from;
  for (; i < to; i++) {
    const x = xs[i] as number;
    const grown = x * perX - (ys[i] as number) * perY + constant;
    if (grown !== grown || x < farthest - loop) continue;
    if (x > farthest) farthest = x;
    if (grown >= target) break;
    if (grown > largest) largest = grown;
    before = i;
  }
  way.farthest = farthest;
  way.before = before;
  way.largest = largest;
  return i;
}

function single({ stress }: CrossingInput, index: number): Crossing {
  return {
    stressMpa: channelValue(stress, index),
    index,
    beforeIndex: index,
    method: 'between-two-readings',
    readings: 1,
    tangentMpa: 0,
    scatterMpa: 0,
  };
}

/** Between two readings whose stresses differ by more than this part, what lies between is anybody's guess. */
const FAR_APART = 0.25;

/** Why nothing can be read off between the two readings; null where it can. */
export function tooFarApart(stress: Channel, crossing: Crossing): string | null {
  if (crossing.method !== 'between-two-readings') return null;
  const before = channelValue(stress, crossing.beforeIndex);
  const after = channelValue(stress, crossing.index);
  return Math.abs(after - before) > FAR_APART * Math.max(before, after)
    ? `It lies between readings ${readingNumber(crossing.beforeIndex)} (${numberText(before, 4)} MPa) and ${readingNumber(crossing.index)} (${numberText(after, 4)} MPa), too far apart to tell; more readings at the start of yielding would give it.`
    : null;
}

/** Least squares of stress on the grown quantity about the target; null where too few readings or a corner. */
function localLine(input: CrossingInput, before: number, between: Crossing): Crossing | null {
  const { stress, strain, range, zeroStrain, compliance, target } = input;
  const grownAt = (i: number): number =>
    channelValue(strain, i) - zeroStrain - channelValue(stress, i) * compliance;
  // By first passage on either side, so that noise doesn't pick the readings by their error.
  let from = before;
  while (from > range.from && !(grownAt(from) < target - LOCAL_STRAIN)) from -= 1;
  let to = between.index;
  while (to < range.to && !(grownAt(to) > target + LOCAL_STRAIN)) to += 1;
  let n = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let i = from + 1; i < to; i++) {
    const x = grownAt(i) - target;
    const y = channelValue(stress, i) - between.stressMpa;
    if (Number.isNaN(x) || Number.isNaN(y)) continue;
    n += 1;
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
    syy += y * y;
  }
  if (n < LOCAL_READINGS_MIN) return null;
  const vx = sxx - (sx * sx) / n;
  const slope = vx > 0 ? (sxy - (sx * sy) / n) / vx : 0;
  const scatter = Math.sqrt(Math.max(0, syy - (sy * sy) / n - slope * (sxy - (sx * sy) / n)) / (n - 2));
  // What noise alone makes of the slope is no corner.
  const steepness = Math.abs(slope) - (vx > 0 ? SLOPE_UNCERTAINTIES * (scatter / Math.sqrt(vx)) : 0);
  if (steepness * 2 * LOCAL_STRAIN > LOCAL_STRESS_CHANGE * between.stressMpa) return null;
  if (scatter > LOCAL_STRESS_CHANGE * between.stressMpa) return null;
  return {
    ...between,
    stressMpa: between.stressMpa + sy / n - (slope * sx) / n,
    method: 'local-line',
    readings: n,
    tangentMpa: slope,
    scatterMpa: scatter,
  };
}
