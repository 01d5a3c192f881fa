/** One rule on one case, in three values: it holds, it doesn't, or something that matters is not known. */
import { type Exact, toNumber } from '../quantity/exact.ts';
import { UNITS, type UnitSymbol, convertExact } from '../quantity/units.ts';
import { compareWithRule, expandedIn } from './decision-rule.ts';
import { roundForJudging } from './exact-rounding.ts';
import { type FractureLocation, elongationDoubt } from './fracture.ts';
import type { JudgeCase } from './judge-case.ts';
import { type CaseLimit, haveDifferentMinima, limitOfRequirement } from './limits-of-case.ts';
import { QUANTITY_WORDS } from './material.ts';
import { exactText } from './number-text.ts';
import { readPrintedValue } from './printed-value.ts';
import type { Requirement, Rule } from './rule-pack.ts';
import type { Amount, Check, MissingFact } from './verdict.ts';

/** Decimal figures that a printed limit may have beyond the rounding step. */
const LIMIT_FIGURES_MAX = 6;

/** true, false, or null for "not known". */
export type Truth = boolean | null;

export interface CheckFinding {
  readonly check: Check;
  readonly truth: Truth;
  readonly missing: readonly MissingFact[];
  readonly remarks: readonly string[];
  /** For the decision rule's probabilities: exact values in the limit's unit. */
  readonly exact: { readonly measured: Exact; readonly limit: Exact; readonly unit: UnitSymbol } | null;
}

export interface RuleFinding {
  readonly rule: Rule;
  readonly truth: Truth;
  /** Whether the conditions (`when`) hold, without the comparisons. */
  readonly applies: Truth;
  /** Whether the condition on where it broke holds. */
  readonly appliesToLocation: Truth;
  /** Conditions that failed, in words. */
  readonly failedConditions: readonly string[];
  readonly checks: readonly CheckFinding[];
  readonly missing: readonly MissingFact[];
}

export function evaluateRule(judged: JudgeCase, rule: Rule): RuleFinding {
  const conditions = conditionsOf(judged, rule);
  const applies = all(conditions.map((condition) => condition.truth));
  const checks = rule.require.map((requirement) => evaluateRequirement(judged, requirement));
  const truth = all([applies, ...checks.map((check) => check.truth)]);
  return {
    rule,
    truth,
    applies,
    appliesToLocation: conditions.find((condition) => condition.name === 'broke')?.truth ?? true,
    failedConditions: conditions.flatMap((c) => (c.truth === false && c.failed !== null ? [c.failed] : [])),
    checks,
    missing: [
      ...conditions.flatMap((c) => (c.truth === null && c.missing !== null ? [c.missing] : [])),
      ...checks.flatMap((check) => check.missing),
    ],
  };
}

/** Kleene's "and": false as soon as one is false, else unknown as soon as one is unknown. */
export function all(truths: readonly Truth[]): Truth {
  if (truths.includes(false)) return false;
  return truths.includes(null) ? null : true;
}

interface ConditionFinding {
  readonly name: 'broke' | 'fracture' | 'appearance' | 'baseMetals' | 'weldMetalMinimum';
  readonly truth: Truth;
  readonly failed: string | null;
  readonly missing: MissingFact | null;
}

function conditionsOf(judged: JudgeCase, rule: Rule): ConditionFinding[] {
  const { when } = rule;
  const { broke, soundness, appearance } = judged.fracture;
  const found: ConditionFinding[] = [];
  if (when.broke !== undefined) {
    found.push({
      name: 'broke',
      truth: brokeThere(broke, when.broke),
      failed: null,
      missing: whereItBroke(broke),
    });
  }
  if (when.fracture !== undefined) {
    found.push({
      name: 'fracture',
      truth: soundness === undefined ? null : when.fracture.includes(soundness),
      failed: soundness === 'unsound' ? 'the fracture is not sound' : 'the fracture is sound',
      missing: {
        code: 'soundness',
        sentence: 'whether the fracture is sound is not noted; look at both faces and note it',
      },
    });
  }
  if (when.appearance !== undefined) {
    found.push({
      name: 'appearance',
      truth: appearance === undefined ? null : when.appearance.includes(appearance),
      failed: `the appearance of the fracture (${appearance ?? 'not noted'}) is not among those the rule names`,
      missing: { code: 'appearance', sentence: 'the appearance of the fracture is not noted; note it' },
    });
  }
  if (when.baseMetals !== undefined) {
    const different = haveDifferentMinima(judged);
    found.push({
      name: 'baseMetals',
      truth: different === null ? null : different === (when.baseMetals === 'different-minima'),
      failed: null,
      // The comparison that follows says which minimum is missing.
      missing: null,
    });
  }
  if (when.weldMetalMinimum !== undefined) {
    found.push({
      name: 'weldMetalMinimum',
      truth: judged.weldMetalMinimum !== null,
      failed: null,
      missing: null,
    });
  }
  return found;
}

/**
 * Outside the gauge length or in the grips is no weld and no heat-affected zone; whether it is the base metal that a
 * rule means is known only where the rule names such a break itself.
 */
function brokeThere(broke: FractureLocation | undefined, named: readonly FractureLocation[]): Truth {
  if (broke === undefined) return null;
  if (named.includes(broke)) return true;
  const elsewhere = broke === 'outside-gauge' || broke === 'grips';
  return elsewhere && named.includes('base-metal') ? null : false;
}

function whereItBroke(broke: FractureLocation | undefined): MissingFact {
  return broke === undefined
    ? { code: 'where-it-broke', sentence: 'where it broke is not noted; look at the specimen and note it' }
    : {
        code: 'where-it-broke',
        sentence:
          'whether the break lies in base metal outside the weld is not noted, and the answer depends on it; note it as base metal where it does',
      };
}

function evaluateRequirement(judged: JudgeCase, requirement: Requirement): CheckFinding {
  const limit = limitOfRequirement(judged, requirement);
  const measured = judged.measured[requirement.quantity];
  const measuredAmount = measured === undefined ? null : amount(measured.exact, measured.unit);
  const bare: Check = {
    quantity: requirement.quantity,
    comparison: requirement.comparison,
    state: 'unknown',
    measured: measuredAmount,
    unrounded: null,
    compared: null,
    rounding: null,
    limit: null,
    limitFrom: null,
    limitStatus: null,
    limitSource: null,
    margin: null,
  };
  if (limit.kind === 'nothing-specified') {
    return {
      check: { ...bare, state: 'nothing-specified' },
      truth: true,
      missing: [],
      remarks: [],
      exact: null,
    };
  }
  if (limit.kind === 'missing') {
    return { check: bare, truth: null, missing: [limit.missing], remarks: [], exact: null };
  }
  const shown = showLimit(judged, requirement, limit);
  const withLimit: Check = {
    ...bare,
    limit: amount(shown.exact, shown.unit),
    limitFrom: limitFromWords(limit, shown.unit),
    limitStatus: limit.status,
    limitSource: limit.source,
  };
  if (measured === undefined) {
    return {
      check: withLimit,
      truth: null,
      missing: [
        {
          code: 'measured',
          sentence: `the ${QUANTITY_WORDS[requirement.quantity]} is not given, and ${amountWords(requirement)} ${withLimit.limit?.text ?? ''} is asked for; measure it and enter it`,
        },
      ],
      remarks: limit.remarks,
      exact: null,
    };
  }
  return compareMeasured(judged, requirement, withLimit, limit, {
    measured: convertExact(measured.exact, measured.unit, shown.unit),
    limit: shown.exact,
    unit: shown.unit,
  });
}

function compareMeasured(
  judged: JudgeCase,
  requirement: Requirement,
  withLimit: Check,
  limit: CaseLimit,
  exact: NonNullable<CheckFinding['exact']>,
): CheckFinding {
  const rounding = roundingFor(judged, requirement, exact);
  const roundIt = (value: Exact): Exact =>
    rounding === null ? value : roundForJudging(value, rounding.step, rounding.tie);
  const decision = requirement.quantity === 'tensile-strength' ? judged.decision : null;
  const state = compareWithRule(
    exact.measured,
    exact.limit,
    requirement.comparison,
    decision === null
      ? null
      : {
          name: decision.name,
          band: expandedIn(decision, exact.measured, exact.unit).mul(decision.guardFactor),
        },
    roundIt,
  );
  const compared = roundIt(exact.measured);
  const difference = compared.sub(exact.limit);
  const check: Check = {
    ...withLimit,
    unrounded: amount(exact.measured, exact.unit, [exact.limit]),
    compared: amount(compared, exact.unit, [exact.limit]),
    rounding:
      rounding === null
        ? null
        : { step: amount(rounding.step, exact.unit), tie: rounding.tie, clause: rounding.clause },
    margin: { ...amount(difference, exact.unit), ratio: toNumber(difference.div(exact.limit)) },
  };
  if (state === 'inside-guard-band') {
    const sentence =
      'the value lies within the guard band around the limit, where the ordered decision rule neither accepts nor rejects';
    return {
      check: { ...check, state: 'unknown' },
      truth: null,
      missing: [{ code: 'outside-guard-band', sentence }],
      remarks: limit.remarks,
      exact,
    };
  }
  const doubt = elongationDoubt(judged.fracture);
  if (state === 'not-met' && requirement.quantity === 'elongation' && doubt !== null) {
    const sentence = `the elongation falls short, but ${doubt}, so it is not representative (ASTM E8, ASTM B557 7.8); discard it and test a replacement`;
    return {
      check: { ...check, state: 'unknown' },
      truth: null,
      missing: [{ code: 'replacement', sentence }],
      remarks: limit.remarks,
      exact,
    };
  }
  return { check: { ...check, state }, truth: state === 'met', missing: [], remarks: limit.remarks, exact };
}

/** Where nothing is rounded, the limit is told in the unit that was measured in, as long as it is of the same system. */
function showLimit(
  judged: JudgeCase,
  requirement: Requirement,
  limit: CaseLimit,
): { readonly exact: Exact; readonly unit: UnitSymbol } {
  const measured = judged.measured[requirement.quantity];
  const rounds = roundingFor(judged, requirement, { limit: limit.exact, unit: limit.unit }) !== null;
  if (measured === undefined || rounds || UNITS[measured.unit].system !== UNITS[limit.unit].system)
    return limit;
  return { exact: convertExact(limit.exact, limit.unit, measured.unit), unit: measured.unit };
}

/** "0.95 × 70 000 psi, the specified minimum of A516-70", in the unit that the limit is told in. */
function limitFromWords(limit: CaseLimit, unit: UnitSymbol): string {
  if (limit.factorText === null) return limit.what;
  const base = exactText(convertExact(limit.base, limit.unit, unit), unit);
  return `${limit.factorText} × ${base}, ${limit.what}`;
}

function roundingFor(
  judged: JudgeCase,
  requirement: Requirement,
  at: { readonly limit: Exact; readonly unit: UnitSymbol },
): { readonly step: Exact; readonly tie: 'half-even' | 'half-up' | 'down'; readonly clause: string } | null {
  const { rounding } = judged.pack.file;
  if (rounding === undefined) return null;
  const text =
    requirement.quantity === 'elongation'
      ? rounding.elongation
      : UNITS[at.unit].system === 'SI'
        ? rounding.strength?.si
        : rounding.strength?.us;
  if (text === undefined) return null;
  const step = readPrintedValue(text);
  return {
    step: stepThatReaches(at.limit, convertExact(step.exact, step.unit, at.unit)),
    tie: rounding.tie,
    clause: rounding.clause,
  };
}

/**
 * A limit such as 745 MPa is no multiple of 10 MPa: rounded to that step, a value of exactly 745 would fall short. Such
 * a limit is judged to its own last figure instead (our reading of "the last figure of the limit").
 */
function stepThatReaches(limit: Exact, step: Exact): Exact {
  let finer = step;
  for (let figures = 0; figures < LIMIT_FIGURES_MAX && limit.div(finer).d !== 1n; figures++)
    finer = finer.div(10);
  return finer;
}

function amount(exact: Exact, unit: UnitSymbol, apartFrom: readonly Exact[] = []): Amount {
  return { value: toNumber(exact), unit, text: exactText(exact, unit, apartFrom) };
}

export const COMPARISON_WORDS: Readonly<Record<Requirement['comparison'], string>> = {
  'at-least': 'at least',
  'more-than': 'more than',
  'at-most': 'at most',
  'less-than': 'less than',
};

function amountWords(requirement: Requirement): string {
  return COMPARISON_WORDS[requirement.comparison];
}
