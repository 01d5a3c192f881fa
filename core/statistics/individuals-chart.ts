/**
 * Individual-value chart: each result in the order of time, the mean, and lines three sigma away, sigma taken
 * from the mean moving range of neighbours. NIST/SEMATECH e-Handbook, 6.3.2.2.
 */
import { meanOf, requireFinite } from './summary.ts';

/** Expected range of two values from a normal population by its sigma, as the handbook rounds it (2/√π = 1.12838). */
export const D2_OF_TWO = 1.128;
/** Upper line of the moving range by its mean (D4 of two). */
export const D4_OF_TWO = 3.267;
/** Fewer values give lines that still wander (common practice, no source). */
const FEW = 20;

export interface IndividualsChart {
  readonly mean: number;
  readonly movingRanges: readonly number[];
  readonly meanMovingRange: number;
  /** Mean moving range / 1.128. */
  readonly sigma: number;
  readonly lowerLine: number;
  readonly upperLine: number;
  readonly movingRangeUpperLine: number;
  /** Places in the list of values that lie outside the lines. */
  readonly outside: readonly number[];
  readonly remarks: readonly string[];
}

export type IndividualsOutcome =
  | { readonly kind: 'chart'; readonly chart: IndividualsChart }
  | { readonly kind: 'withheld'; readonly code: string; readonly reason: string };

/** Values in the order in which the specimens were pulled. Throws a RangeError on values that aren't finite. */
export function individualsChart(values: readonly number[]): IndividualsOutcome {
  requireFinite(values, 0);
  if (values.length < 2)
    return {
      kind: 'withheld',
      code: 'too-few',
      reason:
        'A chart of individual values needs at least two of them; pull another specimen or widen the search.',
    };
  const mean = meanOf(values);
  const movingRanges = values.slice(1).map((value, i) => Math.abs(value - (values[i] ?? Number.NaN)));
  const meanMovingRange = meanOf(movingRanges);
  const sigma = meanMovingRange / D2_OF_TWO;
  const lowerLine = mean - 3 * sigma;
  const upperLine = mean + 3 * sigma;
  return {
    kind: 'chart',
    chart: {
      mean,
      movingRanges,
      meanMovingRange,
      sigma,
      lowerLine,
      upperLine,
      movingRangeUpperLine: D4_OF_TWO * meanMovingRange,
      outside: placesWhere(values, (value) => value < lowerLine || value > upperLine),
      remarks:
        values.length < FEW
          ? [
              `The lines rest on ${String(values.length)} values only; from about ${String(FEW)} on they settle.`,
            ]
          : [],
    },
  };
}

function placesWhere(values: readonly number[], holds: (value: number) => boolean): number[] {
  return values.flatMap((value, place) => (holds(value) ? [place] : []));
}
