/** A set judged from what the archive holds: each member's newest pull evaluated, its fracture, the record's doubts. */
import { decidedVerdict, type DecidedVerdict, type Override } from '../../core/acceptance/override.ts';
import type { RulePack } from '../../core/acceptance/read-rule-pack.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { KeptValue } from '../../core/contract/evaluation-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { KeptMember, KeptSet, MemberVerdict } from '../../core/contract/set-requests.ts';
import { voidSentence } from '../../core/pull/void-sentence.ts';
import { packChangedSince } from '../../core/sets/set-faults.ts';
import type { SetMemberForm } from '../../core/sets/set-member.ts';
import { type MemberPullState, type SetOverview, setOverview } from '../../core/sets/set-overview.ts';
import type { Specimen } from '../../core/specimen/specimen.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import type { Result } from '../../core/results/result.ts';
import { type EvaluatedPull, NOT_PULLED, evaluatedPull, gapWords } from './evaluated-pull.ts';
import { judgedByRules } from './judged-by-rules.ts';
import { evaluatePull } from './kept-evaluations.ts';
import type { Recorder } from './recorder.ts';

export interface JudgedMember extends EvaluatedPull {
  readonly member: KeptMember;
  readonly form: SetMemberForm;
  readonly specimen: Specimen;
  readonly verdict: DecidedVerdict | null;
  /** Why what was entered can't be judged at all. */
  readonly faults: readonly string[];
}

export interface JudgedSet {
  readonly kept: KeptSet;
  readonly members: readonly JudgedMember[];
  readonly overview: SetOverview;
}

/** A pull as it is to be judged in the place of how it stands. */
export interface JudgedAs {
  /** Evaluated by these. */
  readonly options?: EvaluationOptions;
  /** With these values, whatever the evaluation gives now. */
  readonly values?: readonly KeptValue[];
}

/** One member after the other: a long curve takes a whole processor. `as`: pulls that are not judged as they stand. */
export async function judgedSet(
  recorder: Recorder,
  setId: number,
  as: ReadonlyMap<number, JudgedAs> = new Map(),
): Promise<JudgedSet> {
  const { kept, overrides } = await recorder.archive.call('getSet', setId);
  const members: JudgedMember[] = [];
  for (const [place, member] of kept.members.entries())
    members.push(await judged(recorder, { kept, member, overrides: overrides[place] ?? [], as }));
  const overview = setOverview(
    kept.set,
    members.map((one) => ({
      member: one.form,
      measured: true,
      pull: pullState(one.pull),
      fractureNoted: one.note !== null,
      verdict: one.verdict,
    })),
  );
  return { kept, members, overview };
}

interface ToJudge {
  readonly kept: KeptSet;
  readonly member: KeptMember;
  readonly overrides: readonly Override[];
  readonly as: ReadonlyMap<number, JudgedAs>;
}

async function judged(recorder: Recorder, { kept, member, overrides, as }: ToJudge): Promise<JudgedMember> {
  const measured = await recorder.archive.call('getSpecimen', member.specimenId);
  const read = readSpecimen(measured.specimen);
  if (!read.ok) throw new Error(`specimen ${String(member.specimenId)} can't be read any more`);
  const base = { member, form: memberForm(kept, member), specimen: read.specimen };
  const undecided = { verdict: null, faults: [] };
  if (member.pullId === null) return { ...base, ...NOT_PULLED, ...undecided };
  const evaluated = await evaluatedAs(recorder, await evaluatedPull(recorder, member.pullId, measured), as);
  const { evaluation, note } = evaluated;
  if (evaluation === null) return { ...base, ...evaluated, ...undecided };
  const outcome = judgedByRules(kept.set, { ...evaluated, evaluation }, read.specimen);
  const verdict = outcome.ok && note !== null ? decidedVerdict(outcome.verdict, overrides) : null;
  const faults = outcome.ok || note === null ? [] : outcome.faults.map((fault) => fault.sentence);
  return { ...base, ...evaluated, verdict, faults };
}

async function evaluatedAs(
  recorder: Recorder,
  stands: EvaluatedPull & { readonly pull: KeptPull },
  as: ReadonlyMap<number, JudgedAs>,
): Promise<EvaluatedPull & { readonly pull: KeptPull }> {
  const { pullId } = stands.pull;
  const { options, values } = as.get(pullId) ?? {};
  if (stands.evaluation === null || (options === undefined && values === undefined)) return stands;
  const evaluation =
    options === undefined ? stands.evaluation : await evaluatePull(recorder, { pullId, options });
  return {
    ...stands,
    evaluation:
      values === undefined
        ? evaluation
        : { ...evaluation, results: statedResults(values, evaluation.results) },
  };
}

/** What was stated, with what this program knows of the same result beside it. */
const statedResults = (values: readonly KeptValue[], now: readonly Result[]): Result[] =>
  values.map(({ symbol, value, unit }) => ({
    name: symbol,
    method: '',
    working: { formula: '', inputs: [], substituted: '', source: '' },
    ...now.find((one) => one.symbol === symbol),
    symbol,
    value,
    unit,
    rounded: [],
  }));

function memberForm(kept: KeptSet, member: KeptMember): SetMemberForm {
  const original = kept.members.find((one) => one.setMemberId === member.retestOf);
  return {
    specimenId: member.specimenName,
    ...(original === undefined
      ? {}
      : { retest: { of: original.specimenName, reason: member.retestReason ?? 'not said' } }),
    ...(member.voided === null ? {} : { voided: member.voided }),
  };
}

function pullState(pull: KeptPull | null): MemberPullState {
  if (pull === null) return 'none';
  if (pull.typed !== null) return 'typed';
  if (pull.state !== 'ended') return 'open';
  return gapWords(pull).length > 0 ? 'interrupted' : 'recorded';
}

const originOf = (pull: KeptPull | null): Pick<MemberVerdict, 'readings'> =>
  pull?.readings === undefined ? {} : { readings: pull.readings };

/** A pull that was made void is told wherever the set is judged. */
export const voidRemarks = ({ specimenName, voidedPulls }: KeptMember): string[] =>
  voidedPulls.map(({ pullId, voided }) => `${specimenName}: ${voidSentence(pullId, voided)}`);

/** As the contract says it. `packsNow`: those that a new set could be judged by today. */
export function judgedReply(
  { kept, members, overview }: JudgedSet,
  packsNow: readonly RulePack[],
): ReplyOf<'set.judge'> {
  const changed = packChangedSince(kept.set, packsNow);
  return {
    outcome: overview.verdict.outcome,
    sentence: overview.verdict.sentence,
    next: overview.next,
    counts: { ...overview.counts },
    missing: [...overview.verdict.missing],
    remarks: [
      ...(changed === null ? [] : [changed]),
      ...overview.verdict.deviations,
      ...overview.verdict.remarks,
      ...members.flatMap(({ member }) => voidRemarks(member)),
    ],
    required: overview.verdict.required,
    members: members.map(({ member, verdict, pull, note, evaluation, faults }, place) => ({
      setMemberId: member.setMemberId,
      specimenName: member.specimenName,
      stage: overview.lines[place]?.stage ?? 'to-measure',
      next: overview.lines[place]?.next ?? null,
      pull: pullState(pull),
      ...originOf(pull),
      place: note?.note.place ?? null,
      strength: evaluation?.results.find((one) => one.symbol === 'Rm') ?? null,
      outcome: verdict?.outcome ?? null,
      outcomeOfRules: verdict?.verdict.outcome ?? null,
      questionable: verdict?.verdict.validity.state === 'questionable',
      sentence: verdict?.sentence ?? null,
      overrides: [...(verdict?.overrides ?? [])],
      verdict: verdict?.verdict ?? null,
      faults: [...faults],
    })),
  };
}
