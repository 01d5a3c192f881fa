/**
 * Combined standard uncertainty by the law of propagation, effective degrees of freedom by Welch–Satterthwaite
 * (GUM, JCGM 100:2008, 5.1 and G.4). A quantity that several inputs share (the error of the one calliper that
 * measured them all) is a line of its own, so that the lines are independent.
 */
import type { UnitSymbol } from '../quantity/units.ts';
import { DEGREES_OF_FREEDOM_LARGE, coverageFactor } from './coverage-factor.ts';
import type { ResultUncertainty, UncertaintyLine } from './result.ts';

export interface UncertaintyInput {
  /** What it is and where the figure comes from, for the budget table. */
  readonly source: string;
  /** Standard uncertainty of the input, in `unit`. */
  readonly standard: number;
  readonly unit: UnitSymbol;
  /** ∂result/∂input, in the result's unit per `unit`. */
  readonly sensitivity: number;
  readonly distribution: UncertaintyLine['distribution'];
  /** Absent where the figure is taken as known well. */
  readonly degreesOfFreedom?: number;
}

/** The budget as a table and what comes out of it. Lines that contribute nothing stay in the table. */
export function combinedUncertainty(inputs: readonly UncertaintyInput[]): ResultUncertainty {
  const budget = inputs.map((input): UncertaintyLine => ({
    ...input,
    contribution: Math.abs(input.sensitivity * input.standard),
  }));
  const variance = budget.reduce((sum, line) => sum + line.contribution ** 2, 0);
  const standard = Math.sqrt(variance);
  const degreesOfFreedom = effectiveDegreesOfFreedom(budget, standard);
  const factor = coverageFactor(degreesOfFreedom);
  return {
    standard,
    expanded: factor * standard,
    coverageFactor: factor,
    ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom }),
    budget,
  };
}

/** Welch–Satterthwaite; undefined where so many that k = 2 holds. */
function effectiveDegreesOfFreedom(budget: readonly UncertaintyLine[], standard: number): number | undefined {
  const sum = budget.reduce(
    (total, line) =>
      line.degreesOfFreedom === undefined ? total : total + line.contribution ** 4 / line.degreesOfFreedom,
    0,
  );
  if (sum === 0) return undefined;
  const effective = standard ** 4 / sum;
  return effective > DEGREES_OF_FREEDOM_LARGE ? undefined : effective;
}

/** Standard uncertainty of a value known to lie within ± the half width, any place as likely as any other. */
export const rectangular = (halfWidth: number): number => halfWidth / Math.sqrt(3);

/**
 * Partial derivatives by central differences. Each step is a millionth of the value, where rounding and curvature
 * both cost less than a millionth of the derivative for the smooth formulas used here.
 */
export function sensitivities(f: (x: readonly number[]) => number, at: readonly number[]): number[] {
  return at.map((value, i) => {
    const step = value === 0 ? 1e-6 : Math.abs(value) * 1e-6;
    const moved = (by: number): number => f(at.map((x, j) => (j === i ? x + by : x)));
    return (moved(step) - moved(-step)) / (2 * step);
  });
}
