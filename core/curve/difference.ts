/**
 * The difference of two curves, y of the one less y of the other at the same x. A curve runs backwards at times, so
 * y at an x is not one value: both are followed in the order of time up to their maximum, and at each x the y is
 * taken where the curve passed it first. Beyond, or where a curve wasn't recorded, there is no difference.
 */
import type { RecordedPoints } from './recorded-points.ts';

export interface DifferenceSource extends RecordedPoints {
  /** Added to x before anything else (alignment). */
  readonly shift?: number;
}

export interface Difference {
  /** Ascending. */
  readonly x: Float64Array;
  /** First less second; NaN where one of them has no value there. */
  readonly y: Float64Array;
  /** Readings of each that were passed over because the curve had been further along already. */
  readonly passedOver: readonly [number, number];
  /** What bounds the common range, in one sentence; null when nothing but the maxima does. */
  readonly remark: string | null;
}

export type DifferenceOutcome =
  | { readonly ok: true; readonly difference: Difference }
  | { readonly ok: false; readonly reason: string };

/** Points of a difference; more can't be told apart on a screen. */
export const DIFFERENCE_POINTS_MAX = 4_000;

export function differenceOf(first: DifferenceSource, second: DifferenceSource): DifferenceOutcome {
  const a = advancing(first);
  const b = advancing(second);
  if (a.x.length < 2 || b.x.length < 2)
    return { ok: false, reason: 'One of the curves has fewer than two readings up to its maximum.' };
  const from = Math.max(a.x[0] ?? Infinity, b.x[0] ?? Infinity);
  const to = Math.min(a.x.at(-1) ?? -Infinity, b.x.at(-1) ?? -Infinity);
  if (!(to > from))
    return {
      ok: false,
      reason: 'The curves have no range in common up to their maxima; align them differently.',
    };
  const points = Math.min(DIFFERENCE_POINTS_MAX, Math.max(a.x.length, b.x.length));
  const x = Float64Array.from({ length: points }, (_, i) => from + ((to - from) * i) / (points - 1));
  const ya = valuesAt(a, x);
  const yb = valuesAt(b, x);
  return {
    ok: true,
    difference: {
      x,
      y: x.map((_, i) => (ya[i] ?? Number.NaN) - (yb[i] ?? Number.NaN)),
      passedOver: [a.passedOver, b.passedOver],
      remark:
        a.passedOver + b.passedOver === 0
          ? null
          : `Where a curve runs backwards (${String(a.passedOver + b.passedOver)} readings), it is compared where it passed first.`,
    },
  };
}

interface Advancing {
  /** Strictly ascending. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** True where a gap lies before the point. */
  readonly gapBefore: readonly boolean[];
  readonly passedOver: number;
}

/** Readings up to the maximum at which x is further along than ever before. */
function advancing({ length, x, y, shift = 0, lifts = [] }: DifferenceSource): Advancing {
  const end = indexOfMaximum(length, y);
  const xs: number[] = [];
  const ys: number[] = [];
  const gapBefore: boolean[] = [];
  let passedOver = 0;
  let furthest = -Infinity;
  let next = 0;
  let gap = false;
  for (let i = 0; i <= end; i++) {
    while ((lifts[next] ?? Infinity) <= i) {
      gap = true;
      next++;
    }
    const place = (x[i] ?? Number.NaN) + shift;
    const value = y[i] ?? Number.NaN;
    if (!Number.isFinite(place) || !Number.isFinite(value)) {
      gap = true;
      continue;
    }
    if (place <= furthest) {
      passedOver++;
      continue;
    }
    furthest = place;
    xs.push(place);
    ys.push(value);
    gapBefore.push(gap && xs.length > 1);
    gap = false;
  }
  return { x: xs, y: ys, gapBefore, passedOver };
}

function indexOfMaximum(length: number, y: ArrayLike<number>): number {
  let best = -1;
  let largest = -Infinity;
  for (let i = 0; i < length; i++) {
    const value = y[i] ?? Number.NaN;
    if (value > largest) {
      largest = value;
      best = i;
    }
  }
  return best;
}

/** On straight lines between the points; none across a gap. `at` is ascending. */
function valuesAt(curve: Advancing, at: Float64Array): Float64Array {
  let upper = 1;
  return at.map((place) => {
    while (upper < curve.x.length - 1 && (curve.x[upper] ?? Infinity) < place) upper++;
    const x1 = curve.x[upper - 1] ?? Number.NaN;
    const x2 = curve.x[upper] ?? Number.NaN;
    const y1 = curve.y[upper - 1] ?? Number.NaN;
    const y2 = curve.y[upper] ?? Number.NaN;
    if (place === x2) return y2;
    if (place === x1) return y1;
    return curve.gapBefore[upper] === true ? Number.NaN : y1 + ((place - x1) / (x2 - x1)) * (y2 - y1);
  });
}
