/** The verdict on one specimen of a set, by the rule pack that is kept with the set. */
import { judgeEvaluation } from '../acceptance/judge-evaluation.ts';
import { type JudgeOutcome, judgeAsked } from '../acceptance/judge-request.ts';
import type { RulePack } from '../acceptance/read-rule-pack.ts';
import type { UnitSystem } from '../acceptance/printed-value.ts';
import type { Evaluation } from '../results/evaluation.ts';
import { type MemberFacts, memberRequest } from './member-request.ts';
import { packOfSet } from './set-faults.ts';
import type { FrozenSet } from './set-form.ts';

export interface JudgeMemberInput {
  readonly set: FrozenSet;
  readonly facts: MemberFacts;
  /** Null for a typed-in pull: its values are in `facts.typed`. */
  readonly evaluation: Pick<Evaluation, 'results'> | null;
  readonly measuredIn: UnitSystem;
  /** Packs that may be asked for a different answer. */
  readonly packs: readonly RulePack[];
}

/** Never throws on what a person entered; throws where the pack kept with the set is damaged. */
export function judgeMember({ set, facts, evaluation, measuredIn, packs }: JudgeMemberInput): JudgeOutcome {
  const pack = packOfSet(set);
  const request = memberRequest(set.form, facts);
  return evaluation === null
    ? judgeAsked(pack, request, packs)
    : judgeEvaluation({ pack, request, evaluation, measuredIn, packs });
}
