/**
 * Frame compliance from a blank run: a pull with a stiff bar in place of the specimen, so that the crosshead travel
 * is what frame and grips give under the force (common practice, no source). Many readings become a few points.
 */
import type { Curve } from '../curve/curve.ts';

export interface CompliancePoint {
  readonly forceN: number;
  readonly travelMm: number;
}

export type BlankRunOutcome =
  | { readonly ok: true; readonly points: readonly CompliancePoint[] }
  | { readonly ok: false; readonly sentence: string };

/** The loading is cut into this many bands of force; enough for the bend where grips seat themselves. */
export const BLANK_RUN_BANDS = 40;
/** Slack lies in the lowest part of the force; it belongs to that one pull and not to the frame. */
const SLACK_PART = 0.5 / BLANK_RUN_BANDS;
const READINGS_MIN = 5;
/** A largest force below this is none: no readout resolves it, and slopes over it leave the range of numbers. */
const FORCE_MIN_N = 1e-3;

/**
 * Points ascending in force, the first at zero force and zero travel: the mean of the readings in each band of force of
 * the loading. What stands before the force rises (slack) is left out, and the curve carried on to zero force.
 */
export function compliancePoints({ forceN, travelMm, length }: Curve): BlankRunOutcome {
  if (forceN === undefined || travelMm === undefined)
    return fault(
      'A blank run needs columns of force and of crosshead travel; name them like "force_N,travel_mm".',
    );
  const peak = largestIndex(forceN);
  const top = forceN[peak] ?? Number.NaN;
  if (!(top >= FORCE_MIN_N) || length < READINGS_MIN)
    return fault(
      'The force of this blank run does not rise above zero; record the loading with a stiff bar in the grips.',
    );
  const bands = bandsOf(forceN, travelMm, peak, top);
  const [first, second] = bands;
  const last = bands.at(-1);
  if (first === undefined || second === undefined || last === undefined)
    return fault(
      'This blank run has readings at fewer than two levels of force while it rises; record it slower, or with more readings a second.',
    );
  if (!(last.travelMm > first.travelMm))
    return fault(
      'The travel of this blank run does not grow with the force; check the sign of the travel, and that it is the travel of the crosshead.',
    );
  const perN = (second.travelMm - first.travelMm) / (second.forceN - first.forceN);
  const atZero = first.travelMm - perN * first.forceN;
  return {
    ok: true,
    points: [
      { forceN: 0, travelMm: 0 },
      ...bands.map((band) => ({ forceN: band.forceN, travelMm: band.travelMm - atZero })),
    ],
  };
}

const fault = (sentence: string): BlankRunOutcome => ({ ok: false, sentence });

function bandsOf(forceN: Float64Array, travelMm: Float64Array, peak: number, top: number): CompliancePoint[] {
  const sums = Array.from({ length: BLANK_RUN_BANDS }, () => ({ count: 0, force: 0, travel: 0 }));
  for (let i = 0; i <= peak; i++) {
    const force = forceN[i] ?? Number.NaN;
    const travel = travelMm[i] ?? Number.NaN;
    if (!(force > SLACK_PART * top) || !Number.isFinite(travel)) continue;
    const band = sums[Math.min(BLANK_RUN_BANDS - 1, Math.floor((force / top) * BLANK_RUN_BANDS))];
    if (band === undefined) continue;
    band.count += 1;
    band.force += force;
    band.travel += travel;
  }
  return sums
    .filter(({ count }) => count > 0)
    .map(({ count, force, travel }) => ({ forceN: force / count, travelMm: travel / count }));
}

function largestIndex(column: Float64Array): number {
  let index = 0;
  for (let i = 1; i < column.length; i++) {
    const value = column[i] ?? Number.NaN;
    if (value > (column[index] ?? -Infinity) || Number.isNaN(column[index])) index = i;
  }
  return index;
}
