/** The sentence of a verdict: outcome, pack, clause, where it broke, the numbers. */
import { DECISION_WORDS, type DecisionFacts } from './decision-rule.ts';
import { COMPARISON_WORDS, type CheckFinding, type RuleFinding } from './evaluate-rule.ts';
import { type FractureNote, LOCATION_WORDS } from './fracture.ts';
import { QUANTITY_WORDS } from './material.ts';
import { grouped } from './number-text.ts';
import type { Check, MissingFact, Outcome } from './verdict.ts';

export interface SentenceParts {
  readonly outcome: Outcome;
  /** Short name of the pack. */
  readonly packCalled: string;
  readonly finding: RuleFinding | null;
  readonly fracture: FractureNote;
  readonly missing: readonly MissingFact[];
  readonly doubts: readonly string[];
  readonly outcomeIfCleared: Outcome | null;
  readonly decision: DecisionFacts | null;
}

export function verdictSentence(parts: SentenceParts): string {
  const { outcome, finding } = parts;
  const clause = finding === null ? '' : `, ${finding.rule.clause}`;
  const head = `${HEADS[outcome]} by ${parts.packCalled}${clause}`;
  if (parts.doubts.length > 0) return doubtfulSentence(head, parts);
  if (outcome === 'undecided') return `${head}: ${listed(parts.missing.map((m) => m.sentence))}.`;
  if (finding === null) return `${head}: ${brokeWords(parts)}, and no rule of the pack accepts that.`;
  const reasons = outcome === 'accept' ? acceptReasons(finding) : rejectReasons(finding);
  return `${head}: ${[brokeWords(parts), ...reasons].join('; ')}.${guardBandWords(parts.decision)}`;
}

const HEADS: Readonly<Record<Outcome, string>> = {
  accept: 'Accepted',
  reject: 'Rejected',
  undecided: 'Undecided',
};

function doubtfulSentence(head: string, parts: SentenceParts): string {
  const cleared =
    parts.outcomeIfCleared === null
      ? ''
      : ` Were that cleared, the answer would be: ${parts.outcomeIfCleared}.`;
  return `${head}: the test is questionable, because ${listed(parts.doubts)}. Test a replacement, or have a responsible person decide with a reason.${cleared}`;
}

function brokeWords(parts: SentenceParts): string {
  const { broke } = parts.fracture;
  return broke === undefined ? 'where it broke is not noted' : `it broke ${LOCATION_WORDS[broke]}`;
}

function acceptReasons(finding: RuleFinding): string[] {
  if (finding.checks.length === 0) return [lowerFirst(finding.rule.says.replace(/\.$/, ''))];
  return finding.checks.flatMap(({ check }) =>
    check.state === 'nothing-specified' ? [] : [checkWords(check)],
  );
}

function rejectReasons(finding: RuleFinding): string[] {
  if (finding.rule.outcome === 'reject') return [lowerFirst(finding.rule.says.replace(/\.$/, ''))];
  const failed = finding.checks.filter((found: CheckFinding) => found.truth === false);
  return [...finding.failedConditions, ...failed.map(({ check }) => checkWords(check))];
}

/** "tensile strength 66 500 psi, at least 66 500 psi needed (0.95 × 70 000 psi, …), margin 0 psi". */
function checkWords(check: Check): string {
  const { compared, unrounded, measured, limit, margin } = check;
  if (compared === null || limit === null || margin === null)
    return `${QUANTITY_WORDS[check.quantity]} not known`;
  const rounded =
    check.rounding === null || unrounded?.value === compared.value
      ? ''
      : ` (${unrounded?.text ?? ''} rounded to ${check.rounding.step.text})`;
  const asMeasured =
    measured !== null && measured.unit !== compared.unit ? ` (measured ${measured.text})` : '';
  const state =
    check.state === 'met'
      ? `margin ${margin.text}`
      : `${margin.text.replace(/^-/, '')} ${margin.value < 0 ? 'below' : 'above'}`;
  const held = check.state === 'not-met' && margin.value >= 0 ? ' (guard band applied)' : '';
  return `${QUANTITY_WORDS[check.quantity]} ${compared.text}${rounded}${asMeasured}, ${COMPARISON_WORDS[check.comparison]} ${limit.text} needed (${check.limitFrom ?? ''}), ${state}${held}`;
}

function guardBandWords(decision: DecisionFacts | null): string {
  if (decision === null || decision.name === 'simple-acceptance') return '';
  const amount = (value: number): string =>
    `${grouped(String(Number(value.toPrecision(6))))} ${decision.unit}`;
  return ` Decision rule ${DECISION_WORDS[decision.name]}: guard band ${amount(decision.guardBand)}, acceptance limit ${amount(decision.acceptanceLimit)}.`;
}

function listed(sentences: readonly string[]): string {
  return sentences.join('; ');
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
