/** A set of pulls: for each symbol mean, sample standard deviation, smallest, largest, coefficient of variation. */
import { summarise } from '../statistics/summary.ts';
import type { UnitSymbol } from '../quantity/units.ts';
import { convert } from '../quantity/units.ts';
import type { Evaluation } from './evaluation.ts';

export interface SetMember {
  readonly id: string;
  readonly evaluation: Pick<Evaluation, 'results' | 'withheld'>;
}

export interface SetStatistic {
  readonly symbol: string;
  readonly name: string;
  readonly unit: UnitSymbol;
  readonly count: number;
  /** Members of the set that have no such value, by identity. */
  readonly missing: readonly string[];
  readonly mean: number;
  /** n − 1; null for one value. */
  readonly standardDeviation: number | null;
  readonly min: number;
  readonly minOf: string;
  readonly max: number;
  readonly maxOf: string;
  /** Standard deviation over mean, as a ratio; null for one value or a mean of zero. */
  readonly coefficientOfVariation: number | null;
}

/** Statistics of unrounded values; averages are taken before rounding. Symbols in the order of first appearance. */
export function setStatistics(set: readonly SetMember[]): SetStatistic[] {
  const symbols = new Set(set.flatMap(({ evaluation }) => evaluation.results.map((r) => r.symbol)));
  return [...symbols].map((symbol) => statistic(symbol, set));
}

function statistic(symbol: string, set: readonly SetMember[]): SetStatistic {
  const found = set.flatMap(({ id, evaluation }) => {
    const result = evaluation.results.find((r) => r.symbol === symbol);
    return result === undefined ? [] : [{ id, result }];
  });
  const [first] = found;
  if (first === undefined) throw new RangeError(`no member of the set has ${symbol}`);
  const { unit, name } = first.result;
  const values = found.map(({ id, result }) => ({ id, value: convert(result.value, result.unit, unit) }));
  const { mean, standardDeviation } = summarise(values.map((v) => v.value));
  const smallest = values.reduce((a, b) => (b.value < a.value ? b : a));
  const largest = values.reduce((a, b) => (b.value > a.value ? b : a));
  return {
    symbol,
    name,
    unit,
    count: values.length,
    missing: set.filter(({ id }) => !found.some((f) => f.id === id)).map(({ id }) => id),
    mean,
    standardDeviation,
    min: smallest.value,
    minOf: smallest.id,
    max: largest.value,
    maxOf: largest.id,
    coefficientOfVariation:
      standardDeviation === null || mean === 0 ? null : standardDeviation / Math.abs(mean),
  };
}
