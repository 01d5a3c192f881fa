/** A pull of a set judged as it stands, and by other options or other rules, so that both can be seen side by side. */
import type { RuledVerdict } from '../../core/contract/evaluation-requests.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import type { FrozenSet } from '../../core/sets/set-form.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { newestSetOf } from './chosen-rules.ts';
import { evaluatedPull } from './evaluated-pull.ts';
import { judgedByRules } from './judged-by-rules.ts';
import { type JudgedSet, judgedSet } from './judged-set.ts';
import { evaluatePull } from './kept-evaluations.ts';
import type { Recorder } from './recorder.ts';

/** By the newest set that the pull is in: metals and minima are said there. */
export async function judgedAgain(
  recorder: Recorder,
  { pullId, options }: RequestOf<'evaluation.judge'>,
): Promise<ReplyOf<'evaluation.judge'>> {
  const set = await newestSetOf(recorder, pullId);
  if (set === null) return { setName: null, before: null, after: null };
  const kept = await recorder.archive.call('specimenOfPull', pullId);
  const read = readSpecimen(kept.specimen);
  if (!read.ok) throw new Error(`the specimen of pull ${String(pullId)} can't be read any more`);
  const stands = await evaluatedPull(recorder, pullId, kept);
  const { evaluation } = stands;
  if (evaluation === null) return { setName: set.form.name, before: null, after: null };
  const said = (by: FrozenSet, evaluated: typeof evaluation): RuledVerdict => {
    const outcome = judgedByRules(by, { ...stands, evaluation: evaluated }, read.specimen);
    const rules = `${by.pack.name}, ${by.pack.edition}`;
    return outcome.ok
      ? { rules, verdict: outcome.verdict, faults: [] }
      : { rules, verdict: null, faults: outcome.faults.map(({ sentence }) => sentence) };
  };
  return {
    setName: set.form.name,
    before: said(byOptions(set, stands.standing?.options), evaluation),
    after:
      options === undefined
        ? null
        : said(byOptions(set, options), await evaluatePull(recorder, { pullId, options })),
  };
}

/** By what was stated of these pulls, and by what this program gives of them. */
export async function setJudgedAgain(
  recorder: Recorder,
  { setId, pulls }: RequestOf<'evaluation.judge-set'>,
): Promise<ReplyOf<'evaluation.judge-set'>> {
  const before = await judgedSet(
    recorder,
    setId,
    new Map(pulls.map(({ pullId, stated }) => [pullId, { values: stated }])),
  );
  const after = await judgedSet(
    recorder,
    setId,
    new Map(pulls.map(({ pullId, options }) => [pullId, { options }])),
  );
  const said = ({ overview: { verdict } }: JudgedSet) => ({
    outcome: verdict.outcome,
    sentence: verdict.sentence,
  });
  return {
    setName: after.kept.set.form.name,
    before: said(before),
    after: said(after),
    members: after.members.flatMap(({ member, verdict }, place) => {
      const was = before.members[place]?.verdict?.outcome ?? null;
      const is = verdict?.outcome ?? null;
      const { setMemberId, pullId, specimenName } = member;
      return was === null && is === null
        ? []
        : [{ setMemberId, pullId, specimenName, before: was, after: is }];
    }),
  };
}

/** The set as the options have it judged. */
function byOptions(set: FrozenSet, options: EvaluationOptions | undefined): FrozenSet {
  const { judgedBy } = options ?? {};
  if (judgedBy === undefined) return set;
  const { form, otherPacks } = set;
  return { form, ...judgedBy, ...(otherPacks === undefined ? {} : { otherPacks }) };
}
