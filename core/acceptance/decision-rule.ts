/**
 * How the uncertainty of the strength enters a verdict.
 *
 * Codes compare the measured value with the limit, so simple acceptance is the default. A client may order a guard
 * band: ILAC-G8:09/2019 and JCGM 106:2012 (both from memory) call it guarded acceptance; with three zones a value
 * nearer to the limit than the guard band is neither accepted nor rejected.
 */
import { type Exact, exactFromNumber, toNumber } from '../quantity/exact.ts';
import { type UnitSymbol, convertExact } from '../quantity/units.ts';
import { standardNormalShare } from '../statistics/normal-distribution.ts';
import type { Comparison } from './rule-pack.ts';

export const DECISION_RULES = ['simple-acceptance', 'guarded-acceptance', 'three-zones'] as const;
export type DecisionRuleName = (typeof DECISION_RULES)[number];

/** As the guides call them. */
export const DECISION_WORDS = {
  'simple-acceptance': 'simple acceptance',
  'guarded-acceptance': 'guarded acceptance',
  'three-zones': 'guarded acceptance in three zones',
} as const satisfies Readonly<Record<DecisionRuleName, string>>;

export const DECISION_SOURCE = 'ILAC-G8:09/2019 and JCGM 106:2012, from memory';
export const COVERAGE_FACTOR_USUAL = 2;

export interface DecisionRule {
  readonly name: DecisionRuleName;
  /** Expanded uncertainty of the tensile strength; `%` is relative to the measured value. */
  readonly expanded: { readonly exact: Exact; readonly unit: UnitSymbol };
  /** Coverage factor k of the expanded uncertainty. */
  readonly coverageFactor: number;
  /** Guard band as a multiple of the expanded uncertainty (w = r U); 1 is the usual choice of ILAC-G8. */
  readonly guardFactor: Exact;
}

/** What the decision rule did, for the verdict. All values in `unit`. */
export interface DecisionFacts {
  readonly name: DecisionRuleName;
  readonly unit: UnitSymbol;
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
  /** Zero for simple acceptance. */
  readonly guardBand: number;
  /** The limit moved by the guard band to the safe side. */
  readonly acceptanceLimit: number;
  /** Probability that the true value lies on the accepted side of the limit (normal distribution). */
  readonly probabilityOfConformity: number;
  readonly probabilityOfFalseAccept: number | null;
  readonly probabilityOfFalseReject: number | null;
  readonly source: string;
}

/** The expanded uncertainty in the unit of the limit. */
export function expandedIn(rule: DecisionRule, measured: Exact, unit: UnitSymbol): Exact {
  return rule.expanded.unit === '%'
    ? measured.abs().mul(rule.expanded.exact).div(100)
    : convertExact(rule.expanded.exact, rule.expanded.unit, unit);
}

/** Three-valued comparison of a measured value with a limit; `roundIt` is the pack's rounding. */
export function compareWithRule(
  measured: Exact,
  limit: Exact,
  comparison: Comparison,
  guard: { readonly name: DecisionRuleName; readonly band: Exact } | null,
  roundIt: (value: Exact) => Exact,
): 'met' | 'not-met' | 'inside-guard-band' {
  const holds = (value: Exact): boolean => compares(roundIt(value), limit, comparison);
  if (guard === null || guard.name === 'simple-acceptance') return holds(measured) ? 'met' : 'not-met';
  const towardsLimit =
    comparison === 'at-least' || comparison === 'more-than' ? guard.band.neg() : guard.band;
  if (holds(measured.add(towardsLimit))) return 'met';
  if (guard.name === 'guarded-acceptance') return 'not-met';
  return holds(measured.sub(towardsLimit)) ? 'inside-guard-band' : 'not-met';
}

function compares(value: Exact, limit: Exact, comparison: Comparison): boolean {
  const order = value.compare(limit);
  switch (comparison) {
    case 'at-least':
      return order >= 0;
    case 'more-than':
      return order > 0;
    case 'at-most':
      return order <= 0;
    case 'less-than':
      return order < 0;
  }
}

/** The facts for the verdict; `outcome` says which of the two error probabilities applies. */
export function decisionFacts(
  rule: DecisionRule,
  at: {
    readonly measured: Exact;
    readonly limit: Exact;
    readonly unit: UnitSymbol;
    readonly comparison: Comparison;
  },
  outcome: 'accept' | 'reject' | 'undecided',
): DecisionFacts {
  const expanded = expandedIn(rule, at.measured, at.unit);
  const isMinimum = at.comparison === 'at-least' || at.comparison === 'more-than';
  const band = rule.name === 'simple-acceptance' ? exactFromNumber(0) : expanded.mul(rule.guardFactor);
  const standard = toNumber(expanded) / rule.coverageFactor;
  const distance = toNumber(isMinimum ? at.measured.sub(at.limit) : at.limit.sub(at.measured));
  const conformity = standard === 0 ? (distance >= 0 ? 1 : 0) : standardNormalShare(distance / standard);
  const nonConformity = standard === 0 ? 1 - conformity : standardNormalShare(-distance / standard);
  return {
    name: rule.name,
    unit: at.unit,
    expandedUncertainty: toNumber(expanded),
    coverageFactor: rule.coverageFactor,
    guardBand: toNumber(band),
    acceptanceLimit: toNumber(isMinimum ? at.limit.add(band) : at.limit.sub(band)),
    probabilityOfConformity: conformity,
    probabilityOfFalseAccept: outcome === 'accept' ? nonConformity : null,
    probabilityOfFalseReject: outcome === 'reject' ? conformity : null,
    source: DECISION_SOURCE,
  };
}
