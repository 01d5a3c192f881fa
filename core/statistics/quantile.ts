/** Quantiles of a sample. Textbooks and programs differ, so the method has a name and is stated with the number. */

/**
 * Numbered as in Hyndman and Fan, "Sample quantiles in statistical packages", The American Statistician 50 (1996).
 * 6: position p·(n + 1), the one in the NIST/SEMATECH e-Handbook, 7.2.6.2; 7: position 1 + p·(n − 1), the one of
 * most spreadsheets. (Both from memory.)
 */
export const QUANTILE_METHODS = ['hyndman-fan-6', 'hyndman-fan-7'] as const;
export type QuantileMethod = (typeof QUANTILE_METHODS)[number];

/** Throws a RangeError for an empty list or a share outside 0 to 1. */
export function quantile(values: readonly number[], share: number, method: QuantileMethod): number {
  if (values.length === 0) throw new RangeError('no values, no quantile');
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share of ${String(share)} is not between 0 and 1`);
  const sorted = Float64Array.from(values).sort();
  const position = method === 'hyndman-fan-6' ? share * (sorted.length + 1) : 1 + share * (sorted.length - 1);
  const within = Math.min(Math.max(position, 1), sorted.length);
  const below = Math.floor(within);
  const low = sorted[below - 1] ?? Number.NaN;
  const high = sorted[below] ?? low;
  return low + (within - below) * (high - low);
}
