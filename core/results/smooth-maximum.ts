/**
 * Where a noisy record has its maximum: the vertex of a parabola through all readings about it, because the single
 * largest reading sits wherever the noise was largest on a flat top. Used for the extension only; Fm and Rm stay
 * the largest reading that was recorded.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelNoise } from './line-fit.ts';

/** The parabola reaches down to this part below the maximum, or eight standard deviations of the noise. */
const TOP_FRACTION = 0.015;
const TOP_NOISE = 8;
/** Fewer readings on the top don't tell noise from shape. */
const READINGS_MIN = 200;
/** Readings about the maximum from which the noise is told, as long as they carry this part of it. */
const NOISE_READINGS = 400;
const NEAR_FRACTION = 0.97;

/** Standard deviation of the noise about the maximum, as a part of it; 0 where too few readings tell. */
export function noiseAtMaximum(load: Channel, { from, to }: IndexRange, peakIndex: number): number {
  const ys = load.column;
  const top = (ys[peakIndex] as number) - load.zero;
  const limit = load.zero + NEAR_FRACTION * top;
  let first = peakIndex;
  while (first > Math.max(from, peakIndex - NOISE_READINGS / 2) && (ys[first - 1] as number) >= limit)
    first -= 1;
  let last = peakIndex;
  while (last < Math.min(to - 1, peakIndex + NOISE_READINGS / 2) && (ys[last + 1] as number) >= limit)
    last += 1;
  if (last - first < READINGS_MIN / 2) return 0;
  return Math.sqrt(channelNoise(load, { from: first, to: last + 1 })) / (top * load.factor);
}

/** Strain in the strain column's unit at the vertex; null where no parabola opens downwards inside the range. */
export function smoothMaximum(
  load: Channel,
  strain: Channel,
  { from, to }: IndexRange,
  peakIndex: number,
  noise: number,
): number | null {
  const ys = load.column;
  const xs = strain.column;
  const top = (ys[peakIndex] as number) - load.zero;
  const limit = load.zero + (1 - Math.max(TOP_FRACTION, TOP_NOISE * noise)) * top;
  let first = peakIndex;
  while (first > from && !((ys[first - 1] as number) < limit)) first -= 1;
  let last = peakIndex;
  while (last < to - 1 && !((ys[last + 1] as number) < limit)) last += 1;
  const origin = xs[peakIndex] as number;
  const span = Math.max((xs[last] as number) - origin, origin - (xs[first] as number));
  if (last - first + 1 < READINGS_MIN || !(span > 0)) return null;
  // Sums of powers of the scaled strain, and of load times them.
  let n = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let t0 = 0;
  let t1 = 0;
  let t2 = 0;
  for (let i = first; i <= last; i++) {
    const x = ((xs[i] as number) - origin) / span;
    const y = ((ys[i] as number) - load.zero) / top;
    if (!(x === x && y === y)) continue;
    const xx = x * x;
    n += 1;
    s1 += x;
    s2 += xx;
    s3 += xx * x;
    s4 += xx * xx;
    t0 += y;
    t1 += x * y;
    t2 += xx * y;
  }
  const determinant = n * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s2 * s3) + s2 * (s1 * s3 - s2 * s2);
  if (!(Math.abs(determinant) > 1e-12)) return null;
  const linear =
    (n * (t1 * s4 - s3 * t2) - t0 * (s1 * s4 - s2 * s3) + s2 * (s1 * t2 - t1 * s2)) / determinant;
  const square =
    (n * (s2 * t2 - t1 * s3) - s1 * (s1 * t2 - t1 * s2) + t0 * (s1 * s3 - s2 * s2)) / determinant;
  if (!(square < 0)) return null;
  const vertex = -linear / (2 * square);
  const x = origin + vertex * span;
  return x > (xs[first] as number) && x < (xs[last] as number) ? x : null;
}
