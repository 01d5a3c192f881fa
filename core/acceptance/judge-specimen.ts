/**
 * The verdict on one specimen. Order: is the test valid, is what the rules ask for known, does a rule reject, does a
 * rule accept. Pure; never throws on what a person may have left out.
 */
import { type DecisionFacts, decisionFacts } from './decision-rule.ts';
import { type Doubt, doubtSentence } from './doubts.ts';
import { type RuleFinding, evaluateRule } from './evaluate-rule.ts';
import type { JudgeCase } from './judge-case.ts';
import { statedDiffersFromPrinted, withPrintedMinima, withStatedMinima } from './stated-minima.ts';
import { otherReadings } from './other-readings.ts';
import { packListing } from './packs.ts';
import { remarksOn } from './verdict-remarks.ts';
import { CODE_GOVERNS } from './source-status.ts';
import type { MissingFact, Outcome, Verdict } from './verdict.ts';
import { verdictSentence } from './verdict-sentence.ts';

/** Judges one specimen by one pack. */
export function judgeSpecimen(judged: JudgeCase): Verdict {
  const contradiction = statedDiffersFromPrinted(judged);
  if (contradiction === null) return judgeOneReading(judged, []);
  const byPrinted = judgeOneReading(withPrintedMinima(judged), []);
  const byStated = judgeOneReading(withStatedMinima(judged), []);
  if (byPrinted.outcome === byStated.outcome) {
    return { ...byPrinted, remarks: [...byPrinted.remarks, `${contradiction}; both give the same answer.`] };
  }
  return judgeOneReading(withPrintedMinima(judged), [
    {
      code: 'contradiction',
      sentence: `${contradiction}, and the answer depends on it; the value printed for the material governs, so leave out either the material or the stated minimum`,
    },
  ]);
}

function judgeOneReading(judged: JudgeCase, contradictions: readonly MissingFact[]): Verdict {
  const findings = judged.pack.file.rules.map((rule) => evaluateRule(judged, rule));
  const decided = decide(findings);
  const missing = [...contradictions, ...factsMissing(judged, findings, decided)];
  const outcomeOfRules: Outcome = missing.length > 0 ? 'undecided' : decided;
  const doubts = doubtsOf(judged);
  const outcome: Outcome = doubts.length > 0 ? 'undecided' : outcomeOfRules;
  const finding = ruleShown(findings, outcomeOfRules);
  const shownCheck =
    finding?.checks.find((found) =>
      outcomeOfRules === 'reject' ? found.truth === false : found.check.limit !== null,
    ) ?? finding?.checks.find((found) => found.check.limit !== null);
  const clause = judged.pack.file.clauses.find((entry) => entry.id === finding?.rule.clause);
  const cleared = doubts.length > 0 && judged.fracture.broke !== 'grips' ? outcomeOfRules : null;
  const pack = packListing(judged.pack);
  const decision = factsOfDecision(judged, finding, outcome);
  return {
    outcome,
    sentence: verdictSentence({
      outcome,
      packCalled: judged.pack.file.shortName ?? pack.name,
      decision,
      finding,
      fracture: judged.fracture,
      missing,
      doubts: doubts.map(doubtSentence),
      outcomeIfCleared: cleared,
    }),
    clause: finding?.rule.clause ?? null,
    clauseSays: clause?.says ?? null,
    limit: finding?.rule.outcome === 'reject' ? null : (shownCheck?.check.limit ?? null),
    margin: shownCheck?.check.margin ?? null,
    pack,
    ruleId: finding?.rule.id ?? null,
    ruleSays: finding?.rule.says ?? null,
    clauseStatus: clause?.status ?? null,
    clauseSource: clause?.source ?? null,
    broke: judged.fracture.broke ?? null,
    soundness: judged.fracture.soundness ?? null,
    checks: finding?.checks.map((found) => found.check) ?? [],
    missing,
    validity: {
      state: doubts.length > 0 ? 'questionable' : 'sound',
      reasons: doubts.map((doubt) => ({ code: doubt.code, sentence: doubtSentence(doubt) })),
      outcomeIfCleared: cleared,
    },
    otherReadings: finding === null ? [] : otherReadings(judged, finding),
    otherPacks: [],
    decision,
    remarks: remarksOn(judged, finding, outcome),
    caution: CODE_GOVERNS,
  };
}

/** Rejected as soon as a rejecting rule holds; accepted where one accepting rule holds and no rejecting one is open. */
function decide(findings: readonly RuleFinding[]): Outcome {
  const rejecting = findings.filter((finding) => finding.rule.outcome === 'reject');
  const accepting = findings.filter((finding) => finding.rule.outcome === 'accept');
  if (rejecting.some((finding) => finding.truth === true)) return 'reject';
  const rejectionOpen = rejecting.some((finding) => finding.truth === null);
  if (accepting.some((finding) => finding.truth === true)) return rejectionOpen ? 'undecided' : 'accept';
  return accepting.some((finding) => finding.truth === null) ? 'undecided' : 'reject';
}

function factsMissing(judged: JudgeCase, findings: readonly RuleFinding[], decided: Outcome): MissingFact[] {
  const missing: MissingFact[] = [];
  if (judged.fracture.broke === undefined) {
    // Nothing is judged before somebody has looked at the specimen, even where the rule does not ask.
    missing.push({
      code: 'where-it-broke',
      sentence: 'where it broke is not noted; look at the specimen and note it before a verdict is asked for',
    });
  }
  const allWeldMetal = judged.pack.file.test === 'all-weld-metal';
  const { broke } = judged.fracture;
  if (allWeldMetal && (broke === 'base-metal' || broke === 'heat-affected-zone' || broke === 'fusion-line')) {
    missing.push({
      code: 'contradiction',
      sentence:
        'the gauge length of an all-weld-metal specimen is weld metal only, so it can’t have broken there; correct where it broke, or choose a pack for transverse specimens',
    });
  }
  if (decided === 'undecided') {
    missing.push(
      ...findings.filter((finding) => finding.truth === null).flatMap((finding) => finding.missing),
    );
  }
  return missing.filter(
    (fact, index) =>
      missing.findIndex(
        (other) =>
          other.sentence === fact.sentence || (other.code === 'where-it-broke' && fact.code === other.code),
      ) === index,
  );
}

function doubtsOf(judged: JudgeCase): Doubt[] {
  const inGrips = judged.fracture.broke === 'grips';
  const others = judged.doubts.filter((doubt) => doubt.code !== 'broke-in-grips');
  return inGrips || others.length < judged.doubts.length ? [{ code: 'broke-in-grips' }, ...others] : others;
}

/** The rule that the verdict names: the one that decided, else the one nearest to applying. */
function ruleShown(findings: readonly RuleFinding[], outcome: Outcome): RuleFinding | null {
  const accepting = findings.filter((finding) => finding.rule.outcome === 'accept');
  const nearest =
    accepting.find((finding) => finding.applies === true) ??
    accepting.find((finding) => finding.applies === null && finding.appliesToLocation === true) ??
    accepting.find(
      (finding) => finding.appliesToLocation === true && finding.rule.when.broke !== undefined,
    ) ??
    accepting.find((finding) => finding.applies === null) ??
    null;
  switch (outcome) {
    case 'accept':
      return accepting.find((finding) => finding.truth === true) ?? nearest;
    case 'reject':
      return findings.find((f) => f.rule.outcome === 'reject' && f.truth === true) ?? nearest;
    case 'undecided':
      return findings.find((f) => f.rule.outcome === 'reject' && f.truth === true) ?? nearest;
  }
}

function factsOfDecision(
  judged: JudgeCase,
  finding: RuleFinding | null,
  outcome: Outcome,
): DecisionFacts | null {
  if (judged.decision === null || finding === null || finding.rule.outcome === 'reject') return null;
  const strength = finding.checks.find((f) => f.check.quantity === 'tensile-strength' && f.exact !== null);
  if (strength === undefined || strength.exact === null) return null;
  return decisionFacts(
    judged.decision,
    { ...strength.exact, comparison: strength.check.comparison },
    outcome,
  );
}
