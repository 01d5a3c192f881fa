/** A verdict as a certificate states it: outcome, sentence, every comparison, what stays visible beside it. */
import type { DecidedVerdict } from '../acceptance/override.ts';
import { QUANTITY_WORDS } from '../acceptance/material.ts';
import { DECISION_WORDS } from '../acceptance/decision-rule.ts';
import { TIE_WORDS } from '../acceptance/exact-rounding.ts';
import { originText } from '../acceptance/source-status.ts';
import { grouped } from '../acceptance/number-text.ts';
import type { Check, Verdict } from '../acceptance/verdict.ts';
import { numberText } from '../quantity/number-text.ts';
import type { PaperWords } from '../words/paper-words.ts';
import type { Fact, VerdictContent } from './certificate-content.ts';

export function verdictContent(decided: DecidedVerdict, words: PaperWords): VerdictContent {
  const { verdict } = decided;
  const { said } = words;
  return {
    outcome: decided.outcome,
    outcomeOfRules: verdict.outcome,
    sentence: said(decided.sentence),
    clause: verdict.clause === null ? null : said(verdict.clause),
    clauseOrigin: originText({ status: verdict.clauseStatus, source: verdict.clauseSource }, said),
    questionable: verdict.validity.reasons.map((reason) => said(reason.sentence)),
    missing: verdict.missing.map((fact) => said(fact.sentence)),
    comparisons: verdict.checks.flatMap((check) => comparison(check, words)),
    otherReadings: verdict.otherReadings.map(
      (reading) =>
        `${said(reading.says)}: ${words.text('limit {1}, then {2}', reading.limit.text, said(reading.outcome))}`,
    ),
    otherPacks: verdict.otherPacks.map(
      (other) => `${said(other.pack.name)}: ${said(other.outcome)}. ${said(other.sentence)}`,
    ),
    decision: decisionFacts(verdict, words),
    remarks: verdict.remarks.map(said),
  };
}

export function overrideSentences(
  specimenName: string,
  decided: DecidedVerdict,
  { text, said }: PaperWords,
): string[] {
  return decided.overrides.map((given) =>
    text(
      '{1}: the verdict of the rules ({2}) was overridden to "{3}" by {4}: {5}',
      specimenName,
      said(decided.verdict.outcome),
      said(given.to),
      `${given.person}${given.at === undefined ? '' : ` ${text('on {1}', given.at)}`}`,
      given.reason,
    ),
  );
}

function comparison(check: Check, { text, said }: PaperWords): Fact[] {
  if (check.limit === null) return [];
  const compared = check.compared?.text ?? text('not given');
  const rounded =
    check.rounding === null
      ? ''
      : ` (${text(`{1} before rounding to {2}, ${TIE_WORDS[check.rounding.tie]}`, check.unrounded?.text ?? '', check.rounding.step.text)})`;
  const margin = check.margin === null ? '' : `; ${text('margin {1}', check.margin.text)}`;
  return [
    {
      label: said(QUANTITY_WORDS[check.quantity]),
      value: `${compared}${rounded}, ${said(check.comparison.replace('-', ' '))} ${check.limit.text} (${said(check.limitFrom ?? '')})${margin}`,
    },
  ];
}

/** As the page shows it; more would say more than is known. */
const UNCERTAINTY_DIGITS = 3;
/** No normal distribution is trusted that far out. */
const PROBABILITY_TOLD_MIN = 1e-6;

function decisionFacts({ decision }: Verdict, { text, said }: PaperWords): Fact[] {
  if (decision === null) return [];
  const amount = (value: number): string => `${grouped(numberText(value))} ${decision.unit}`;
  const percent = (share: number): string =>
    share < PROBABILITY_TOLD_MIN
      ? text('less than {1} %', numberText(PROBABILITY_TOLD_MIN * 100))
      : `${numberText(share * 100, 3)} %`;
  return [
    {
      label: text('decision rule'),
      value: `${text(DECISION_WORDS[decision.name])} (${said(decision.source)})`,
    },
    {
      label: text('expanded uncertainty of the strength'),
      value: `${grouped(numberText(decision.expandedUncertainty, UNCERTAINTY_DIGITS))} ${decision.unit} (k = ${numberText(decision.coverageFactor, 3)})`,
    },
    ...(decision.guardBand === 0
      ? []
      : [
          { label: text('guard band'), value: amount(decision.guardBand) },
          { label: text('acceptance limit'), value: amount(decision.acceptanceLimit) },
        ]),
    ...(decision.probabilityOfFalseAccept === null
      ? []
      : [
          { label: text('probability of a false accept'), value: percent(decision.probabilityOfFalseAccept) },
        ]),
    ...(decision.probabilityOfFalseReject === null
      ? []
      : [
          { label: text('probability of a false reject'), value: percent(decision.probabilityOfFalseReject) },
        ]),
  ];
}
