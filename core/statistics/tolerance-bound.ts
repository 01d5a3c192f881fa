/** Lower tolerance bound of a set of strengths: what nearly all further specimens will reach, with stated confidence. */
import { requireFinite, summarise } from './summary.ts';
import { oneSidedToleranceFactor } from './tolerance-factor.ts';

export const TOLERANCE_DISTRIBUTIONS = ['normal', 'lognormal'] as const;
export type ToleranceDistribution = (typeof TOLERANCE_DISTRIBUTIONS)[number];

export interface ToleranceQuestion {
  readonly distribution: ToleranceDistribution;
  readonly coverage: number;
  readonly confidence: number;
}

export type ToleranceAnswer =
  | {
      readonly kind: 'bound';
      /** In the unit of the values. */
      readonly bound: number;
      readonly factor: number;
      /** Of the values, or of their natural logarithms for the lognormal distribution. */
      readonly mean: number;
      readonly standardDeviation: number;
      /** Method with its figures, in one line. */
      readonly method: string;
      readonly remarks: readonly string[];
    }
  | { readonly kind: 'withheld'; readonly code: string; readonly reason: string };

/** Below this a bound says more about the factor than about the welds (common practice, no source). */
const FEW = 6;

/** Throws a RangeError on values that aren't finite; everything else that stands in the way is a withheld bound. */
export function lowerToleranceBound(
  values: readonly number[],
  { distribution, coverage, confidence }: ToleranceQuestion,
): ToleranceAnswer {
  requireFinite(values, 0);
  if (values.length < 2)
    return withheld(
      'too-few',
      `A tolerance bound needs at least two specimens, and there ${values.length === 1 ? 'is one' : 'are none'}.`,
    );
  if (distribution === 'lognormal' && values.some((value) => value <= 0))
    return withheld(
      'not-positive',
      'A lognormal bound needs values above zero; leave out what is not, or ask for the normal distribution.',
    );
  const { mean, standardDeviation } = summarise(distribution === 'normal' ? values : values.map(Math.log));
  const spread = standardDeviation ?? 0;
  const factor = oneSidedToleranceFactor({ count: values.length, coverage, confidence });
  const raw = mean - factor * spread;
  return {
    kind: 'bound',
    bound: distribution === 'normal' ? raw : Math.exp(raw),
    factor,
    mean,
    standardDeviation: spread,
    method: `lower tolerance bound, ${distribution}, ${percent(coverage)} of the population with ${percent(confidence)} confidence, n = ${String(values.length)}, k = ${factor.toFixed(3)} (noncentral t)`,
    remarks: remarksOn(values.length, spread, raw, distribution),
  };
}

function remarksOn(
  count: number,
  spread: number,
  bound: number,
  distribution: ToleranceDistribution,
): string[] {
  const remarks: string[] = [];
  if (spread === 0)
    remarks.push('All values are equal, so the bound is that value and says nothing about scatter.');
  else if (count < FEW)
    remarks.push(
      `Only ${String(count)} specimens: the factor is large and the bound far below the smallest value.`,
    );
  if (distribution === 'normal' && bound < 0)
    remarks.push(
      'The bound lies below zero: the normal distribution does not fit so few or so scattered values.',
    );
  return remarks;
}

function withheld(code: string, reason: string): ToleranceAnswer {
  return { kind: 'withheld', code, reason };
}

const percent = (share: number): string => `${String(Number((share * 100).toPrecision(6)))} %`;
