/**
 * Whether the curve has a yield point, and its upper and lower yield: decided from the record, not assumed.
 *
 * Upper yield: the highest force before a fall of at least 0.5 % that is followed by at least 0.05 % strain in
 * which the force doesn't exceed it (ISO 6892-1, Annex A, from memory), the fall being more than noise. It is the
 * start of yielding: a fall after 0.1 % plastic strain is not. The force rises again later or stays on a plateau: a
 * maximum from which it only goes down is the maximum force. An unloading, in which force and strain go back
 * together and far, is no fall.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';
import { type Yielding, yieldingAfter } from './yielding-stretch.ts';

export interface YieldPoint extends Yielding {
  readonly upperIndex: number;
  readonly upperMpa: number;
  /** The fall after the upper yield, as a part of it. */
  readonly fall: number;
}

export interface NoYieldPoint {
  /** Largest fall met before the strain limit, as a part of the stress before it. */
  readonly largestFall: number;
  /** What a fall had to be, as a part. */
  readonly needed: number;
  /** Largest step between neighbouring readings at the start of yielding, as a part of the stress there. */
  readonly coarsest: number;
}

export type YieldPointDecision =
  | { readonly present: true; readonly point: YieldPoint }
  | ({ readonly present: false } & NoYieldPoint);

export const FALL_MIN = 0.005;
export const STRAIN_BELOW_MIN = 0.0005;
/** Past this plastic strain yielding has long begun, and a fall is no upper yield. */
export const UPPER_YIELD_PLASTIC_MAX = 0.001;
/** The highest of many noisy readings is followed by a lowest one: falls no larger than that are noise. */
const noiseFall = (noiseMpa: number, readings: number): number =>
  2 * noiseMpa * Math.sqrt(2 * Math.log(Math.max(3, readings)));
/** A fall deeper than this with the strain going back is an unloading. */
const UNLOADING_FRACTION = 0.7;
/** The fall of a yield point without later hardening is over within this strain. */
const SHARP_FALL_STRAIN = 0.001;

export interface YieldPointInput {
  readonly stress: Channel;
  readonly strain: Channel;
  /** From the upper end of the elastic window to the last reading that counts. */
  readonly range: IndexRange;
  readonly slopeMpa: number;
  readonly footStrain: number;
  /** Standard deviation of the stress noise, MPa. */
  readonly noiseMpa: number;
}

export function yieldPoint(input: YieldPointInput): YieldPointDecision {
  const { stress, strain, range } = input;
  const ys = stress.column;
  const xs = strain.column;
  let top = -1;
  let topY = -Infinity;
  let largestFall = 0;
  let coarsest = 0;
  let i = range.from;
  for (; i < range.to; i++) {
    const y = ys[i] as number;
    if (y > topY) {
      if (plasticStrain(input, i) > UPPER_YIELD_PLASTIC_MAX) break;
      if (top >= 0) coarsest = Math.max(coarsest, (y - topY) / (y - stress.zero));
      topY = y;
      top = i;
      continue;
    }
    const topMpa = (topY - stress.zero) * stress.factor;
    const fallMpa = (topY - y) * stress.factor;
    if (!(fallMpa > largestFall * topMpa)) continue;
    const back = ((xs[top] as number) - (xs[i] as number)) * strain.factor;
    if (fallMpa > (1 - UNLOADING_FRACTION) * topMpa && back > (0.5 * fallMpa) / input.slopeMpa) {
      i = reloaded(ys, i, range.to, 0.98 * (topY - stress.zero) + stress.zero) - 1;
      continue;
    }
    if (fallMpa < Math.max(FALL_MIN * topMpa, noiseFall(input.noiseMpa, i - range.from))) continue;
    const next = exceeds(ys, xs, i, range.to, topY, (xs[top] as number) + STRAIN_BELOW_MIN / strain.factor);
    if (next >= 0) {
      i = next - 1;
      continue;
    }
    largestFall = Math.max(largestFall, fallMpa / topMpa);
    const point = confirmed(input, top, topMpa);
    if (point !== null) return { present: true, point };
    break;
  }
  const topMpa = (topY - stress.zero) * stress.factor;
  return {
    present: false,
    largestFall,
    coarsest,
    needed: Math.max(FALL_MIN, topMpa > 0 ? noiseFall(input.noiseMpa, top - range.from) / topMpa : 0),
  };
}

const plasticStrain = ({ stress, strain, slopeMpa, footStrain }: YieldPointInput, index: number): number =>
  channelValue(strain, index) - footStrain - channelValue(stress, index) / slopeMpa;

/** The reading at which the force is back near its top after an unloading; `to` if it never is. */
function reloaded(ys: Float64Array, from: number, to: number, limit: number): number {
  let i = from;
  while (i < to && !((ys[i] as number) >= limit)) i += 1;
  return i;
}

/** First reading that exceeds the top before the strain has gone on far enough; −1 if none does. */
function exceeds(
  ys: Float64Array,
  xs: Float64Array,
  from: number,
  to: number,
  topY: number,
  strainEnough: number,
): number {
  for (let i = from; i < to; i++) {
    if ((ys[i] as number) > topY) return i;
    if ((xs[i] as number) >= strainEnough) return -1;
  }
  return -1;
}

/** With what follows: hardening, or a sharp fall onto a plateau. Null for the maximum before necking. */
function confirmed(input: YieldPointInput, upperIndex: number, upperMpa: number): YieldPoint | null {
  const readings = upperIndex - input.range.from;
  const neededMpa = Math.max(FALL_MIN * upperMpa, noiseFall(input.noiseMpa, readings));
  const yielding = yieldingAfter({ ...input, upperIndex, upperMpa, neededMpa });
  if (yielding === null) return null;
  const sharp = yielding.fallStrain <= SHARP_FALL_STRAIN && yielding.plateauStrain >= 5 * SHARP_FALL_STRAIN;
  return yielding.risesAgain || sharp
    ? { ...yielding, upperIndex, upperMpa, fall: (upperMpa - yielding.lowestMpa) / upperMpa }
    : null;
}
