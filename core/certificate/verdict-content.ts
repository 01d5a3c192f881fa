/** A verdict as a certificate states it: outcome, sentence, every comparison, what stays visible beside it. */
import type { DecidedVerdict } from '../acceptance/override.ts';
import { QUANTITY_WORDS } from '../acceptance/material.ts';
import { STATUS_WORDS } from '../acceptance/source-status.ts';
import { grouped } from '../acceptance/number-text.ts';
import type { Check, Verdict } from '../acceptance/verdict.ts';
import { numberText } from '../quantity/number-text.ts';
import type { Fact, VerdictContent } from './certificate-content.ts';

export function verdictContent(decided: DecidedVerdict): VerdictContent {
  const { verdict } = decided;
  return {
    outcome: decided.outcome,
    outcomeOfRules: verdict.outcome,
    sentence: decided.sentence,
    clause: verdict.clause,
    clauseOrigin: originWords(verdict),
    questionable: verdict.validity.reasons.map((reason) => reason.sentence),
    missing: verdict.missing.map((fact) => fact.sentence),
    comparisons: verdict.checks.flatMap(comparison),
    otherReadings: verdict.otherReadings.map(
      (reading) => `${reading.says}: limit ${reading.limit.text}, then ${reading.outcome}`,
    ),
    otherPacks: verdict.otherPacks.map((other) => `${other.pack.name}: ${other.outcome}. ${other.sentence}`),
    decision: decisionFacts(verdict),
    remarks: verdict.remarks,
  };
}

export function overrideSentences(specimenName: string, decided: DecidedVerdict): string[] {
  return decided.overrides.map(
    (given) =>
      `${specimenName}: the verdict of the rules (${decided.verdict.outcome}) was overridden to "${given.to}" by ${given.person}${given.at === undefined ? '' : ` on ${given.at}`}: ${given.reason}`,
  );
}

function originWords(verdict: Verdict): string | null {
  if (verdict.clauseStatus === null) return null;
  const words = STATUS_WORDS[verdict.clauseStatus];
  return verdict.clauseStatus === 'practice' ? words : `${words}: ${verdict.clauseSource ?? ''}`;
}

function comparison(check: Check): Fact[] {
  if (check.limit === null) return [];
  const compared = check.compared?.text ?? 'not given';
  const rounded =
    check.rounding === null
      ? ''
      : ` (${check.unrounded?.text ?? ''} before rounding to ${check.rounding.step.text}, ${check.rounding.tie})`;
  const margin = check.margin === null ? '' : `; margin ${check.margin.text}`;
  return [
    {
      label: QUANTITY_WORDS[check.quantity],
      value: `${compared}${rounded}, ${check.comparison.replace('-', ' ')} ${check.limit.text} (${check.limitFrom ?? ''})${margin}`,
    },
  ];
}

/** As the page shows it; more would say more than is known. */
const UNCERTAINTY_DIGITS = 3;
/** No normal distribution is trusted that far out. */
const PROBABILITY_TOLD_MIN = 1e-6;

function decisionFacts({ decision }: Verdict): Fact[] {
  if (decision === null) return [];
  const amount = (value: number): string => `${grouped(numberText(value))} ${decision.unit}`;
  const percent = (share: number): string =>
    share < PROBABILITY_TOLD_MIN
      ? `less than ${numberText(PROBABILITY_TOLD_MIN * 100)} %`
      : `${numberText(share * 100, 3)} %`;
  return [
    { label: 'decision rule', value: `${decision.name} (${decision.source})` },
    {
      label: 'expanded uncertainty of the strength',
      value: `${grouped(numberText(decision.expandedUncertainty, UNCERTAINTY_DIGITS))} ${decision.unit} (k = ${numberText(decision.coverageFactor, 3)})`,
    },
    ...(decision.guardBand === 0
      ? []
      : [
          { label: 'guard band', value: amount(decision.guardBand) },
          { label: 'acceptance limit', value: amount(decision.acceptanceLimit) },
        ]),
    ...(decision.probabilityOfFalseAccept === null
      ? []
      : [{ label: 'probability of a false accept', value: percent(decision.probabilityOfFalseAccept) }]),
    ...(decision.probabilityOfFalseReject === null
      ? []
      : [{ label: 'probability of a false reject', value: percent(decision.probabilityOfFalseReject) }]),
  ];
}
