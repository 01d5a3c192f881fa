/** Mean, spread and extremes of a set of results. */
import { quantile } from './quantile.ts';

export interface Summary {
  readonly count: number;
  readonly mean: number;
  /** Of the sample, n − 1; null for a single value. */
  readonly standardDeviation: number | null;
  /** Standard deviation by mean, as a ratio; null for a single value or a mean that is not above zero. */
  readonly coefficientOfVariation: number | null;
  readonly min: number;
  readonly median: number;
  readonly max: number;
}

/** Throws a RangeError where the list is empty or holds something that isn't a finite number. */
export function summarise(values: readonly number[]): Summary {
  requireFinite(values, 1);
  const mean = meanOf(values);
  const standardDeviation = values.length < 2 ? null : standardDeviationOf(values, mean);
  return {
    count: values.length,
    mean,
    standardDeviation,
    coefficientOfVariation: standardDeviation === null || mean <= 0 ? null : standardDeviation / mean,
    min: values.reduce((a, b) => Math.min(a, b)),
    median: quantile(values, 0.5, 'hyndman-fan-7'),
    max: values.reduce((a, b) => Math.max(a, b)),
  };
}

/** In two passes: the second takes off what rounding left in the first. */
export function meanOf(values: readonly number[]): number {
  const rough = values.reduce((sum, value) => sum + value, 0) / values.length;
  return rough + values.reduce((sum, value) => sum + (value - rough), 0) / values.length;
}

/** Sample standard deviation about a known mean, with the correction for the mean's own rounding. */
export function standardDeviationOf(values: readonly number[], mean: number): number {
  let squares = 0;
  let rest = 0;
  for (const value of values) {
    squares += (value - mean) ** 2;
    rest += value - mean;
  }
  return Math.sqrt((squares - (rest * rest) / values.length) / (values.length - 1));
}

export function requireFinite(values: readonly number[], countMin: number): void {
  if (values.length < countMin)
    throw new RangeError(`${String(values.length)} values, at least ${String(countMin)} are needed`);
  const odd = values.findIndex((value) => !Number.isFinite(value));
  if (odd !== -1)
    throw new RangeError(`value ${String(odd + 1)} is ${String(values[odd])}, not a finite number`);
}
