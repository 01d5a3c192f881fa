/**
 * The elastic line, found by itself or set by hand.
 *
 * Ordinary record: least squares between 10 % and 40 % of a reference stress, which is the maximum stress but no
 * more than 1.125 times the yield (0.2 % offset, or upper yield), so that the window lies in the elastic part of
 * soft metals too. That is the window ISO 6892-1 describes (10 % to 40 % of ReH or Rp0.2, from memory) for metals
 * whose yield is near their strength. It is moved up out of a toe, and down where yielding has begun inside it,
 * when the slopes of its halves tell so; where it is bent without either, the whole elastic part is taken. Sparse record: the run of readings with the smallest uncertainty.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';
import type { ElasticLine } from './elastic-line.ts';
import { fitLine } from './line-fit.ts';
import { firstReaching, windowRange } from './slope-window.ts';
import { sparseLine } from './sparse-line.ts';
import { searchView, steepestStretch, yieldEstimate } from './yield-estimate.ts';

export interface ElasticLineInput {
  readonly stress: Channel;
  readonly strain: Channel;
  /** From the start of the loading to the maximum. */
  readonly loading: IndexRange;
  readonly peakMpa: number;
  readonly byHand?: { readonly lowerMpa: number; readonly upperMpa: number };
}

export const WINDOW_LOWER = 0.1;
export const WINDOW_UPPER = 0.4;
/** The reference stress is at most this many times the yield. */
export const YIELD_SHARE_MAX = 1.125;
/** Slopes of the two halves that differ by more than this part, and by more than their scatter, are a bend. */
export const BEND_MAX = 0.06;
/** The whole elastic part, as parts of the reference stress: above the first settling, well below yielding. */
const WHOLE_LOWER = 0.03;
const WHOLE_UPPER = 0.7;
/** A bend has levelled off when the slope falls by less than this part of its fall inside the window, above it. */
const SETTLED_FALL = 0.4;
/** Yielding has begun inside the window when the slope falls by this many times that, or by this much inside. */
const YIELDING_FALL = 1.5;
const YIELDING_BEND = 0.2;
/** Fewer readings in the window than this, and the record is treated as sparse. */
export const WINDOW_READINGS_MIN = 10;
/** Rounds of fitting and setting the window anew. */
const ROUNDS_MAX = 6;

/** Windows tried in order, as parts of the reference stress. */
const ABOVE_A_TOE: readonly (readonly [number, number])[] = [
  [0.15, 0.45],
  [0.2, 0.5],
  [0.25, 0.55],
  [0.3, 0.6],
  [0.4, 0.65],
  [0.5, 0.75],
];
const BELOW_EARLY_YIELD: readonly (readonly [number, number])[] = [
  [0.1, 0.35],
  [0.1, 0.3],
  [0.08, 0.25],
  [0.05, 0.2],
  [0.03, 0.15],
];

/** Null where no straight rising stretch is in the record at all. */
export function elasticLine(input: ElasticLineInput): ElasticLine | null {
  const { stress, strain, loading, byHand } = input;
  if (byHand !== undefined) return lineBetween(input, byHand.lowerMpa, byHand.upperMpa, 'hand');

  const view = searchView(stress, strain, loading);
  const first = steepestStretch(view, input.peakMpa);
  let yieldMpa = first === null ? input.peakMpa : yieldEstimate(view, first);
  let line: ElasticLine | null = null;
  for (let round = 0; round < ROUNDS_MAX; round++) {
    const reference = Math.min(input.peakMpa, YIELD_SHARE_MAX * yieldMpa);
    line = standardLine(input, reference);
    if (line === null || line.fit.readings < WINDOW_READINGS_MIN) {
      const elastic = { from: loading.from, to: firstReaching(stress, loading, 0.95 * yieldMpa) };
      const sparse = sparseLine(stress, strain, elastic, yieldMpa);
      if (sparse !== null)
        line = {
          ...sparse,
          lowerMpa: channelValue(stress, sparse.range.from),
          upperMpa: channelValue(stress, sparse.range.to - 1),
          referenceMpa: yieldMpa,
          bend: null,
          chosen: 'sparse',
        };
    }
    if (line === null) return null;
    const { slope, intercept } = line.fit;
    if (!(slope > 0)) return null;
    const next = yieldEstimate(view, { slope, foot: -intercept / slope });
    const settled = Math.abs(next - yieldMpa) <= 0.02 * yieldMpa;
    yieldMpa = next;
    if (settled || !(next > 0)) break;
  }
  return line;
}

function standardLine(input: ElasticLineInput, reference: number): ElasticLine | null {
  const standard = lineBetween(input, WINDOW_LOWER * reference, WINDOW_UPPER * reference, 'standard');
  if (standard === null) return null;
  const line = { ...standard, referenceMpa: reference };
  if (line.bend === null || Math.abs(line.bend) <= BEND_MAX) return line;
  if (line.bend > 0) return firstStraight(input, reference, ABOVE_A_TOE, 'above-toe') ?? line;
  const above = lineBetween(input, WINDOW_UPPER * reference, WHOLE_UPPER * reference, 'standard');
  if (above === null) return line;
  // Yielding gathers pace: the slope falls by more above the window than it did inside. A bend that levels off is the
  // extensometer settling; moving down would lead into it, and the whole elastic part averages over it.
  const upperHalf = (1 + line.bend / 2) * line.fit.slope;
  const fallInside = -line.bend * line.fit.slope;
  const fallAbove = upperHalf - above.fit.slope;
  if (fallAbove <= SETTLED_FALL * fallInside) {
    const whole = lineBetween(input, WHOLE_LOWER * reference, WHOLE_UPPER * reference, 'whole');
    return whole === null ? line : { ...whole, referenceMpa: reference };
  }
  if (fallAbove < YIELDING_FALL * fallInside && -line.bend < YIELDING_BEND) return line;
  return firstStraight(input, reference, BELOW_EARLY_YIELD, 'below-early-yield') ?? line;
}

function firstStraight(
  input: ElasticLineInput,
  reference: number,
  windows: readonly (readonly [number, number])[],
  chosen: ElasticLine['chosen'],
): ElasticLine | null {
  for (const [lower, upper] of windows) {
    const line = lineBetween(input, lower * reference, upper * reference, chosen);
    if (line === null || line.fit.readings < WINDOW_READINGS_MIN || line.bend === null) continue;
    if (Math.abs(line.bend) <= BEND_MAX) return { ...line, referenceMpa: reference };
  }
  return null;
}

function lineBetween(
  { stress, strain, loading }: ElasticLineInput,
  lowerMpa: number,
  upperMpa: number,
  chosen: ElasticLine['chosen'],
): ElasticLine | null {
  const range = windowRange(stress, loading, lowerMpa, upperMpa);
  const fit = fitLine(stress, strain, range);
  if (fit === null) return null;
  return { fit, range, lowerMpa, upperMpa, bend: bendOf(stress, strain, range, lowerMpa, upperMpa), chosen };
}

/** Relative difference of the slopes of both halves; 0 where it doesn't stand out of the scatter. */
function bendOf(
  stress: Channel,
  strain: Channel,
  range: IndexRange,
  lowerMpa: number,
  upperMpa: number,
): number | null {
  const middle = firstReaching(stress, range, (lowerMpa + upperMpa) / 2);
  if (middle - range.from < HALF_READINGS_MIN || range.to - middle < HALF_READINGS_MIN) return null;
  const lower = fitLine(stress, strain, { from: range.from, to: middle });
  const upper = fitLine(stress, strain, { from: middle, to: range.to });
  if (lower === null || upper === null) return null;
  const difference = upper.slope - lower.slope;
  const scatter = Math.hypot(lower.slopeUncertainty, upper.slopeUncertainty);
  return Math.abs(difference) <= 2 * scatter ? 0 : (2 * difference) / (upper.slope + lower.slope);
}

const HALF_READINGS_MIN = 4;
