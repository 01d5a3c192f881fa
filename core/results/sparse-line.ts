/**
 * The elastic line of a record with a handful of readings in the elastic part (tables written by hand, thinned
 * files): the run of readings next to each other whose slope has the smallest uncertainty. Each reading is taken
 * to be uncertain by at least 1 % of the yield, so that three readings which happen to lie on a line don't win
 * against a longer run; few readings pay by Student's factor. The line's slope is the median of the slopes of all pairs
 * of readings (Theil and Sen): one reading that is off, as the first after the preload often is, doesn't turn it.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';
import { type LineFit, fitLine } from './line-fit.ts';

/** Readings looked at; more than this in the elastic part is no sparse record. */
export const SPARSE_READINGS_MAX = 64;
const READING_UNCERTAINTY = 0.01;
/** A run ends below this part of the yield. */
const UPPER_MAX = 0.8;
/** Two readings make a line of anything. */
const RUN_READINGS_MIN = 3;
const SPAN_MIN = 0.15;
/** Student's factor at 68.3 % for 1, 2, 3, … degrees of freedom (tables of the t distribution). */
const STUDENT = [1.84, 1.32, 1.2, 1.14, 1.11, 1.09, 1.08, 1.07, 1.06, 1.05];

export function sparseLine(
  stress: Channel,
  strain: Channel,
  elastic: IndexRange,
  yieldMpa: number,
): { readonly fit: LineFit; readonly range: IndexRange; readonly relativeUncertainty: number } | null {
  const from = Math.max(elastic.from, elastic.to - SPARSE_READINGS_MAX);
  let best: { fit: LineFit; range: IndexRange; relativeUncertainty: number } | null = null;
  for (let a = from; a < elastic.to; a++) {
    for (let b = a + RUN_READINGS_MIN; b <= elastic.to; b++) {
      const range = { from: a, to: b };
      const lower = channelValue(stress, a);
      const upper = channelValue(stress, b - 1);
      if (!(upper <= UPPER_MAX * yieldMpa && upper - lower >= SPAN_MIN * yieldMpa)) continue;
      const fit = fitLine(stress, strain, range);
      if (fit === null || !(fit.slope > 0)) continue;
      const relativeUncertainty = uncertaintyOf(fit, strain, range, READING_UNCERTAINTY * yieldMpa);
      if (best === null || relativeUncertainty < best.relativeUncertainty)
        best = { fit, range, relativeUncertainty };
    }
  }
  return best === null ? null : { ...best, fit: medianLine(stress, strain, best.range, best.fit) };
}

function uncertaintyOf(fit: LineFit, strain: Channel, range: IndexRange, floorMpa: number): number {
  let n = 0;
  let sx = 0;
  let sxx = 0;
  const origin = channelValue(strain, range.from);
  for (let i = range.from; i < range.to; i++) {
    const x = channelValue(strain, i) - origin;
    if (Number.isNaN(x)) continue;
    n += 1;
    sx += x;
    sxx += x * x;
  }
  const spread = Math.sqrt(Math.max(0, sxx - (sx * sx) / n));
  const student = n <= 2 ? 4 : (STUDENT[n - 3] ?? 1);
  return (student * Math.hypot(fit.residual, floorMpa)) / (spread * fit.slope);
}

/** The median of all pairs' slopes, through the median of what is left over; its scatter about the readings. */
function medianLine(stress: Channel, strain: Channel, range: IndexRange, fit: LineFit): LineFit {
  const points: { x: number; y: number }[] = [];
  for (let i = range.from; i < range.to; i++) {
    const x = channelValue(strain, i);
    const y = channelValue(stress, i);
    if (!Number.isNaN(x) && !Number.isNaN(y)) points.push({ x, y });
  }
  const slopes = points.flatMap((a, k) =>
    points.slice(k + 1).flatMap((b) => (b.x === a.x ? [] : [(b.y - a.y) / (b.x - a.x)])),
  );
  const slope = median(slopes);
  if (!(slope > 0)) return fit;
  const intercept = median(points.map(({ x, y }) => y - slope * x));
  const squares = points.reduce((sum, { x, y }) => sum + (y - intercept - slope * x) ** 2, 0);
  return {
    ...fit,
    slope,
    intercept,
    residual: Math.sqrt(squares / Math.max(1, points.length - 2)),
    method: 'median-of-pairs',
  };
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}
