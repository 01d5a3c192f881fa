/** A verdict for a terminal. */
import { grouped } from '../../core/acceptance/number-text.ts';
import type { Check, Verdict } from '../../core/acceptance/verdict.ts';
import { DECISION_WORDS } from '../../core/acceptance/decision-rule.ts';
import { TIE_WORDS } from '../../core/acceptance/exact-rounding.ts';
import { originText } from '../../core/acceptance/source-status.ts';
import { QUANTITY_WORDS } from '../../core/acceptance/material.ts';

export function verdictText(verdict: Verdict): string {
  const lines = [
    `${verdict.outcome.toUpperCase()}${verdict.validity.state === 'questionable' ? '  (questionable test)' : ''}`,
    verdict.sentence,
    '',
    `rules    ${verdict.pack.name}; ${verdict.pack.edition} (${verdict.pack.kind})`,
  ];
  if (verdict.ruleSays !== null) lines.push(`rule     ${verdict.ruleSays}`);
  if (verdict.clause !== null)
    lines.push(
      `clause   ${verdict.clause}: ${verdict.clauseSays ?? ''}`,
      ...seen(verdict.clauseStatus, verdict.clauseSource),
    );
  lines.push(...verdict.checks.flatMap(checkLines));
  for (const reading of verdict.otherReadings) {
    lines.push(
      `unclear  ${reading.says}: limit ${reading.limit.text} (${reading.limitFrom}), then ${reading.outcome}`,
    );
  }
  if (verdict.decision !== null) lines.push(...decisionLines(verdict.decision));
  for (const other of verdict.otherPacks) {
    lines.push(`others   ${other.pack.name} would say ${other.outcome}: ${other.sentence}`);
  }
  for (const remark of verdict.remarks) lines.push(`remark   ${remark}`);
  lines.push('', verdict.caution);
  return lines.join('\n');
}

function seen(status: Verdict['clauseStatus'], source: string | null): string[] {
  const origin = originText({ status, source });
  return origin === null ? [] : [`         ${origin}`];
}

function checkLines(check: Check): string[] {
  if (check.limit === null) return [];
  const name = QUANTITY_WORDS[check.quantity];
  const compared = check.compared === null ? 'not given' : check.compared.text;
  const rounded =
    check.rounding === null
      ? ''
      : `, ${check.unrounded?.text ?? ''} before rounding to ${check.rounding.step.text} (${TIE_WORDS[check.rounding.tie]})`;
  return [
    `limit    ${name}: ${compared}${rounded}; ${check.comparison.replace('-', ' ')} ${check.limit.text}, ${check.limitFrom ?? ''}: ${check.state}`,
    ...seen(check.limitStatus, check.limitSource),
  ];
}

function decisionLines(decision: NonNullable<Verdict['decision']>): string[] {
  const number = (value: number): string => grouped(String(Number(value.toPrecision(6))));
  // What a normal distribution says far out in its tail is no knowledge.
  const percent = (value: number): string =>
    value < 1e-4 ? 'below 0.01 %' : `${String(Number((value * 100).toPrecision(3)))} %`;
  const errors = [
    decision.probabilityOfFalseAccept === null
      ? null
      : `probability of a false accept ${percent(decision.probabilityOfFalseAccept)}`,
    decision.probabilityOfFalseReject === null
      ? null
      : `probability of a false reject ${percent(decision.probabilityOfFalseReject)}`,
  ].filter((text) => text !== null);
  return [
    `decision ${DECISION_WORDS[decision.name]}: U = ${number(decision.expandedUncertainty)} ${decision.unit} (k = ${number(decision.coverageFactor)}), guard band ${number(decision.guardBand)} ${decision.unit}, acceptance limit ${number(decision.acceptanceLimit)} ${decision.unit}${errors.length > 0 ? `; ${errors.join('; ')}` : ''}`,
  ];
}
