/** A set at a glance: what is measured, pulled, judged, missing, and what to do next. */
import { type SetVerdict, judgeSet } from '../acceptance/judge-set.ts';
import type { DecidedVerdict } from '../acceptance/override.ts';
import type { Outcome } from '../acceptance/verdict.ts';
import { packOfSet } from './set-faults.ts';
import type { FrozenSet } from './set-form.ts';
import type { SetMemberForm } from './set-member.ts';

/** `interrupted`: the record has a gap or ended by itself; whether it can be judged is for a person to say. */
export const PULL_STATES = ['none', 'open', 'interrupted', 'recorded', 'typed'] as const;
export type MemberPullState = (typeof PULL_STATES)[number];

/** What the archive knows of one member. */
export interface MemberProgress {
  readonly member: SetMemberForm;
  readonly measured: boolean;
  readonly pull: MemberPullState;
  readonly fractureNoted: boolean;
  /** Null while it was not judged. */
  readonly verdict: DecidedVerdict | null;
}

export const MEMBER_STAGES = [
  'to-measure',
  'to-pull',
  'pulling',
  'to-look-at',
  'to-judge',
  'judged',
  'void',
] as const;
export type MemberStage = (typeof MEMBER_STAGES)[number];

export interface MemberLine {
  readonly specimenId: string;
  readonly stage: MemberStage;
  readonly outcome: Outcome | null;
  readonly questionable: boolean;
  readonly overridden: boolean;
  readonly retestOf: string | null;
  /** What to do with it next; null where nothing is left. */
  readonly next: string | null;
}

export interface SetOverview {
  readonly lines: readonly MemberLine[];
  readonly counts: {
    readonly required: number | null;
    readonly specimens: number;
    readonly measured: number;
    readonly pulled: number;
    readonly judged: number;
    readonly accepted: number;
    readonly rejected: number;
    /** Specimens that are asked for and not in the set yet. */
    readonly missing: number | null;
  };
  readonly verdict: SetVerdict;
  /** The next thing to do for the set; null where it is decided. */
  readonly next: string | null;
}

export function setOverview(set: FrozenSet, progress: readonly MemberProgress[]): SetOverview {
  const { form } = set;
  const pack = packOfSet(set);
  const lines = progress.map(memberLine);
  const counted = progress.filter(({ member }) => member.voided === undefined);
  const verdict = judgeSet({
    pack,
    members: progress.map(({ member, verdict: decided }) => ({
      specimenId: member.specimenId,
      outcome: decided?.outcome ?? null,
      ...(member.retest === undefined ? {} : { retestOf: member.retest.of }),
      isVoid: member.voided !== undefined,
      ...(decided === null ? {} : { packId: decided.verdict.pack.id }),
    })),
    ...(form.requiredCount === undefined ? {} : { requiredCount: form.requiredCount }),
    ...(form.fewerReason === undefined ? {} : { fewerReason: form.fewerReason }),
    ...(form.outsideDiameter === undefined ? {} : { outsideDiameter: form.outsideDiameter }),
    ...(form.wall === undefined ? {} : { wall: form.wall }),
  });
  const originals = counted.filter(({ member }) => member.retest === undefined).length;
  const required = verdict.required?.count ?? null;
  const missing = required === null ? null : Math.max(0, required - originals);
  return {
    lines,
    counts: {
      required,
      specimens: counted.length,
      measured: counted.filter((one) => one.measured).length,
      pulled: counted.filter((one) => one.pull !== 'none' && one.pull !== 'open').length,
      judged: counted.filter((one) => one.verdict !== null).length,
      accepted: counted.filter((one) => one.verdict?.outcome === 'accept').length,
      rejected: counted.filter((one) => one.verdict?.outcome === 'reject').length,
      missing,
    },
    verdict,
    next: nextOfSet(lines, missing, verdict),
  };
}

function memberLine(one: MemberProgress): MemberLine {
  const stage = stageOf(one);
  return {
    specimenId: one.member.specimenId,
    stage,
    outcome: one.verdict?.outcome ?? null,
    questionable: one.verdict?.verdict.validity.state === 'questionable',
    overridden: (one.verdict?.overrides.length ?? 0) > 0,
    retestOf: one.member.retest?.of ?? null,
    next: NEXT_OF_STAGE[stage],
  };
}

function stageOf(one: MemberProgress): MemberStage {
  if (one.member.voided !== undefined) return 'void';
  if (one.verdict !== null) return 'judged';
  if (one.pull === 'open') return 'pulling';
  if (!one.measured) return 'to-measure';
  if (one.pull === 'none') return 'to-pull';
  return one.fractureNoted ? 'to-judge' : 'to-look-at';
}

const NEXT_OF_STAGE: Readonly<Record<MemberStage, string | null>> = {
  'to-measure': 'measure it',
  'to-pull': 'pull it',
  pulling: 'it is being pulled',
  'to-look-at': 'note where and how it broke',
  'to-judge': 'judge it',
  judged: null,
  void: null,
};

function nextOfSet(lines: readonly MemberLine[], missing: number | null, verdict: SetVerdict): string | null {
  if (verdict.outcome !== 'undecided') return null;
  const open = lines.find((line) => line.next !== null);
  if (open !== undefined && open.next !== null) return `${open.specimenId}: ${open.next}`;
  if (missing !== null && missing > 0) {
    return `add ${String(missing)} more ${missing === 1 ? 'specimen' : 'specimens'}`;
  }
  return verdict.missing[0] ?? null;
}
