/**
 * A straight line through stress and strain over a stretch of readings, with the figures that tell how good it is.
 *
 * Least squares of stress on strain takes the strain as exact. Where strain is coarse or noisy (a staircase, optical
 * strain) that pulls the slope down; then the line is fitted with the noise of both channels taken into account
 * (Deming; slope between the two regressions). Which of the two was used is part of the answer.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';

export interface LineFit {
  readonly slope: number;
  /** Stress of the line at strain zero. */
  readonly intercept: number;
  readonly readings: number;
  readonly meanStress: number;
  /** Root mean square of the residuals in stress, over n − 2. */
  readonly residual: number;
  /** Coefficient of determination R² of stress and strain. */
  readonly determination: number;
  /** Standard uncertainty of the slope; readings that follow one another are not taken as independent. */
  readonly slopeUncertainty: number;
  readonly method: 'least-squares' | 'both-noisy' | 'median-of-pairs';
}

/** Share of the strain's variance that may be noise before it is taken into account. */
const STRAIN_NOISE_SHARE = 0.0005;
/** Readings more than this many residuals away are left out; at most REFITS times. */
const OUTLIER_RESIDUALS = 6;
const REFITS = 3;
/** Fewer readings say nothing about noise or outliers. */
const READINGS_FOR_NOISE_MIN = 12;

interface Sums {
  n: number;
  x: number;
  y: number;
  xx: number;
  xy: number;
  yy: number;
}

/** Null where fewer than two different strains are in the range. */
export function fitLine(stress: Channel, strain: Channel, range: IndexRange): LineFit | null {
  // Sums are taken about the first reading, so that a large zero doesn't eat the digits.
  const origin = firstBoth(stress, strain, range);
  if (origin === null) return null;
  let limit: { slope: number; intercept: number; distance: number } | null = null;
  let line: LineFit | null = null;
  let before = -1;
  let noise: Noise | null = null;
  for (let round = 0; round <= REFITS; round++) {
    const sums = sumUp(stress, strain, range, origin, limit);
    // The noise is that of the whole range, whichever readings the line leaves out: looked at once.
    if (sums.n >= READINGS_FOR_NOISE_MIN) noise ??= noiseOf(stress, strain, range);
    const next = solve(sums, sums.n >= READINGS_FOR_NOISE_MIN ? noise : null);
    if (next === null) break;
    line = next;
    // A line without scatter, as in a computed curve, has no outliers but those of arithmetic.
    if (line.residual <= 1e-9 * Math.abs(line.meanStress)) break;
    if (sums.n < READINGS_FOR_NOISE_MIN || sums.n === before) break;
    before = sums.n;
    limit = { slope: line.slope, intercept: line.intercept, distance: OUTLIER_RESIDUALS * line.residual };
  }
  if (line === null) return null;
  const correlation = residualCorrelation(stress, strain, range, origin, line);
  const inflation = Math.sqrt((1 + correlation) / (1 - correlation));
  return {
    ...line,
    meanStress: line.meanStress + origin.stress,
    intercept: line.intercept + origin.stress - line.slope * origin.strain,
    slopeUncertainty: line.slopeUncertainty * inflation,
  };
}

interface Origin {
  readonly stress: number;
  readonly strain: number;
}

function firstBoth(stress: Channel, strain: Channel, { from, to }: IndexRange): Origin | null {
  for (let i = from; i < to; i++) {
    const s = ((stress.column[i] as number) - stress.zero) * stress.factor;
    const e = ((strain.column[i] as number) - strain.zero) * strain.factor;
    if (s === s && e === e) return { stress: s, strain: e };
  }
  return null;
}

function sumUp(
  stress: Channel,
  strain: Channel,
  { from, to }: IndexRange,
  origin: Origin,
  limit: { readonly slope: number; readonly intercept: number; readonly distance: number } | null,
): Sums {
  const ys = stress.column;
  const xs = strain.column;
  const sums: Sums = { n: 0, x: 0, y: 0, xx: 0, xy: 0, yy: 0 };
  for (let i = from; i < to; i++) {
    const y = ((ys[i] as number) - stress.zero) * stress.factor - origin.stress;
    const x = ((xs[i] as number) - strain.zero) * strain.factor - origin.strain;
    if (!(x === x && y === y)) continue;
    if (limit !== null && Math.abs(y - limit.intercept - limit.slope * x) > limit.distance) continue;
    sums.n += 1;
    sums.x += x;
    sums.y += y;
    sums.xx += x * x;
    sums.xy += x * y;
    sums.yy += y * y;
  }
  return sums;
}

interface Noise {
  /** Variances of the noise in strain and in stress. */
  readonly strain: number;
  readonly stress: number;
}

function solve(sums: Sums, noise: Noise | null): LineFit | null {
  const { n } = sums;
  if (n < 2) return null;
  const meanX = sums.x / n;
  const meanY = sums.y / n;
  const vx = sums.xx / n - meanX * meanX;
  const vy = Math.max(0, sums.yy / n - meanY * meanY);
  const cxy = sums.xy / n - meanX * meanY;
  if (!(vx > 0)) return null;
  let slope = cxy / vx;
  let method: LineFit['method'] = 'least-squares';
  if (noise !== null && noise.strain > STRAIN_NOISE_SHARE * vx && cxy > 0) {
    const ratio = noise.stress / noise.strain;
    const d = vy - ratio * vx;
    slope = (d + Math.sqrt(d * d + 4 * ratio * cxy * cxy)) / (2 * cxy);
    method = 'both-noisy';
  }
  const scatter = Math.max(0, vy - 2 * slope * cxy + slope * slope * vx);
  const residual = n > 2 ? Math.sqrt((scatter * n) / (n - 2)) : 0;
  return {
    slope,
    intercept: meanY - slope * meanX,
    readings: n,
    meanStress: meanY,
    residual,
    determination: vy > 0 ? Math.min(1, (cxy * cxy) / (vx * vy)) : 0,
    slopeUncertainty: residual / Math.sqrt(n * vx),
    method,
  };
}

/**
 * Noise from second differences of readings next to each other (a straight ramp has none), but no less than what
 * the smallest step of a channel hides (step²/12).
 */
function noiseOf(stress: Channel, strain: Channel, range: IndexRange): Noise {
  return { strain: channelNoise(strain, range), stress: channelNoise(stress, range) };
}

/** Variance of the noise of a channel over a range, in the channel's unit squared. */
export function channelNoise({ column, factor }: Channel, { from, to }: IndexRange): number {
  let squares = 0;
  let count = 0;
  let step = Infinity;
  let repeats = 0;
  let smallest = Infinity;
  let largest = -Infinity;
  let a = Number.NaN;
  let b = Number.NaN;
  for (let i = from; i < to; i++) {
    const c = column[i] as number;
    if (c !== c) continue;
    const second = a - 2 * b + c;
    if (second === second) {
      squares += second * second;
      count += 1;
    }
    const first = Math.abs(c - b);
    if (first > 0 && first < step) step = first;
    if (first === 0) repeats += 1;
    if (c < smallest) smallest = c;
    if (c > largest) largest = c;
    a = b;
    b = c;
  }
  if (count === 0) return 0;
  // A coarse channel repeats itself. Differences far below the span are rounding of the file's arithmetic.
  const coarse = repeats > REPEATS_OF_A_COARSE_CHANNEL * count && step > 1e-9 * (largest - smallest);
  const quantum = coarse && Number.isFinite(step) ? step : 0;
  return Math.max(squares / count / 6, (quantum * quantum) / 12) * factor * factor;
}

/** Correlation of each residual with the one before, kept within what makes sense as an inflation. */
function residualCorrelation(
  stress: Channel,
  strain: Channel,
  { from, to }: IndexRange,
  origin: Origin,
  { slope, intercept, readings }: LineFit,
): number {
  if (readings < READINGS_FOR_NOISE_MIN) return 0;
  let products = 0;
  let squares = 0;
  let before = 0;
  for (let i = from; i < to; i++) {
    const y = ((stress.column[i] as number) - stress.zero) * stress.factor - origin.stress;
    const x = ((strain.column[i] as number) - strain.zero) * strain.factor - origin.strain;
    const r = y - intercept - slope * x;
    if (r !== r) continue;
    products += r * before;
    squares += r * r;
    before = r;
  }
  return squares > 0 ? Math.min(CORRELATION_MAX, Math.max(0, products / squares)) : 0;
}

const REPEATS_OF_A_COARSE_CHANNEL = 0.05;
const CORRELATION_MAX = 0.98;
