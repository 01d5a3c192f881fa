/** A set judged from what the archive holds: each member's newest pull evaluated, its fracture, the record's doubts. */
import type { FractureNote } from '../../core/acceptance/fracture.ts';
import { fractureOfNote } from '../../core/acceptance/fracture-of-note.ts';
import { decidedVerdict, type DecidedVerdict, type Override } from '../../core/acceptance/override.ts';
import { builtInPacks } from '../../core/acceptance/packs.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { KeptFractureNote } from '../../core/contract/record.ts';
import type { KeptMember, KeptSet, MemberVerdict } from '../../core/contract/set-requests.ts';
import type { Curve } from '../../core/curve/curve.ts';
import { voidSentence } from '../../core/pull/void-sentence.ts';
import { standingNote } from '../../core/pull/standing-note.ts';
import { standingOptions } from '../../core/evaluation/standing-options.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import { doubtsOfRecord } from '../../core/sets/doubts-of-record.ts';
import { judgeMember } from '../../core/sets/judge-member.ts';
import type { SetMemberForm } from '../../core/sets/set-member.ts';
import { type MemberPullState, type SetOverview, setOverview } from '../../core/sets/set-overview.ts';
import type { Specimen } from '../../core/specimen/specimen.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import type { Recorder } from './recorder.ts';
import { runEvaluation } from './run-evaluation.ts';

export interface JudgedMember {
  readonly member: KeptMember;
  readonly form: SetMemberForm;
  readonly specimen: Specimen;
  readonly pull: KeptPull | null;
  readonly curve: Curve | null;
  readonly evaluation: Evaluation | null;
  /** What a person kept of it; null where the pull stands as recorded. */
  readonly standing: KeptEvaluation | null;
  readonly note: KeptFractureNote | null;
  readonly fracture: FractureNote;
  readonly verdict: DecidedVerdict | null;
  /** Why what was entered can't be judged at all. */
  readonly faults: readonly string[];
}

export interface JudgedSet {
  readonly kept: KeptSet;
  readonly members: readonly JudgedMember[];
  readonly overview: SetOverview;
}

/** One member after the other: a long curve takes a whole processor. */
export async function judgedSet(recorder: Recorder, setId: number): Promise<JudgedSet> {
  const { kept, overrides } = await recorder.archive.call('getSet', setId);
  const members: JudgedMember[] = [];
  for (const [place, member] of kept.members.entries())
    members.push(await judged(recorder, kept, member, overrides[place] ?? []));
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

async function judged(
  recorder: Recorder,
  kept: KeptSet,
  member: KeptMember,
  overrides: readonly Override[],
): Promise<JudgedMember> {
  const { specimen: file } = await recorder.archive.call('getSpecimen', member.specimenId);
  const read = readSpecimen(file);
  if (!read.ok) throw new Error(`specimen ${String(member.specimenId)} can't be read any more`);
  const base = { member, form: memberForm(kept, member), specimen: read.specimen };
  const nothing = {
    ...base,
    pull: null,
    curve: null,
    evaluation: null,
    standing: null,
    note: null,
    fracture: {},
    verdict: null,
    faults: [],
  };
  if (member.pullId === null) return nothing;
  const { curve, pull, standing } = await recorder.archive.call('curve', member.pullId);
  if (pull.state !== 'ended') return { ...nothing, pull };
  const evaluation = await runEvaluation({
    curve,
    specimen: file,
    typed: pull.typed,
    options: standingOptions(pull, standing),
  });
  const note = standingNote(pull.fractureNotes);
  const fracture = note === null ? {} : fractureOfNote(note.note);
  const outcome = judgeMember({
    set: kept.set,
    facts: {
      fracture,
      doubts: doubtsOfRecord({ gaps: gapWords(pull), speed: evaluation.speed }),
    },
    evaluation,
    measuredIn: measuredInInches(read.specimen) ? 'US' : 'SI',
    packs: builtInPacks(),
  });
  const verdict = outcome.ok && note !== null ? decidedVerdict(outcome.verdict, overrides) : null;
  const faults = outcome.ok || note === null ? [] : outcome.faults.map((fault) => fault.sentence);
  return { ...base, pull, curve, evaluation, standing, note, fracture, verdict, faults };
}

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

/** Gaps between trigger and break; what was not received before or after them takes nothing from the maximum. */
export function gapWords({ gaps, triggerSeq, breakSeq }: KeptPull): string[] {
  return gaps
    .filter(
      (gap) => gap.beforeSeq >= (triggerSeq ?? 0) && gap.beforeSeq <= (breakSeq ?? Number.MAX_SAFE_INTEGER),
    )
    .map((gap) => gap.words);
}

function pullState(pull: KeptPull | null): MemberPullState {
  if (pull === null) return 'none';
  if (pull.state !== 'ended') return 'open';
  return gapWords(pull).length > 0 ? 'interrupted' : 'recorded';
}

const originOf = (pull: KeptPull | null): Pick<MemberVerdict, 'readings'> =>
  pull?.readings === undefined ? {} : { readings: pull.readings };

/** A pull that was made void is told wherever the set is judged. */
export const voidRemarks = ({ specimenName, voidedPulls }: KeptMember): string[] =>
  voidedPulls.map(({ pullId, voided }) => `${specimenName}: ${voidSentence(pullId, voided)}`);

/** As the contract says it. */
export function judgedReply({ members, overview }: JudgedSet): ReplyOf<'set.judge'> {
  return {
    outcome: overview.verdict.outcome,
    sentence: overview.verdict.sentence,
    next: overview.next,
    counts: { ...overview.counts },
    missing: [...overview.verdict.missing],
    remarks: [
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
