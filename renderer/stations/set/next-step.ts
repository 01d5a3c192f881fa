/** What a set needs a person for next, and the way to it from one button. */
import type { MemberVerdict } from '../../../core/contract/set-requests.ts';
import type { GeometryKind } from '../../../core/specimen/specimen-file.ts';
import type { SpecimenType } from '../../../core/sets/set-form.ts';
import { drawnAtOnce } from '../../design/drawn-at-once.ts';
import { say } from '../../design/said.tsx';
import { whenThere } from '../../design/when-there.ts';
import { type Carried, type OpenedSet, carried, openedSet, shownMember } from './open-set.ts';
import { type Station, archivePullId, goTo } from '../../store/place.ts';
import { heldOpen, recording, request, session, sessionState } from '../../store/session-store.ts';
import { changeDraft, draft, draftIsKept, takeUp } from '../../store/specimen-draft.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { endedPull } from '../opened-pull.ts';
import { nextSpecimen } from '../pull/pull-acts.ts';

export type NextStep =
  | { readonly kind: 'measure'; readonly number: number; readonly of: number | null }
  | { readonly kind: 'pull' | 'pulling' | 'look' | 'judge'; readonly member: MemberVerdict }
  | { readonly kind: 'certificate' };

const STEP_OF_STAGE = {
  'to-pull': 'pull',
  pulling: 'pulling',
  'to-look-at': 'look',
  'to-judge': 'judge',
} as const;

/** Specimens begun are finished before the next is measured. */
export function nextStep({ judged }: OpenedSet): NextStep {
  for (const member of judged.members) {
    const { stage } = member;
    if (stage === 'to-pull' || stage === 'pulling' || stage === 'to-look-at' || stage === 'to-judge')
      return { kind: STEP_OF_STAGE[stage], member };
  }
  const { required, missing, specimens } = judged.counts;
  if ((missing ?? 0) > 0 || specimens === 0)
    return { kind: 'measure', number: (required ?? 1) - (missing ?? 1) + 1, of: required };
  return { kind: 'certificate' };
}

export function stepWords(step: NextStep): string {
  const text = words.value.set.next;
  switch (step.kind) {
    case 'measure':
      return step.of === null
        ? text.measureOnly(String(step.number))
        : text.measure(String(step.number), String(step.of));
    case 'certificate':
      return text.certificate;
    case 'pull':
    case 'pulling':
    case 'look':
    case 'judge':
      return text[step.kind](step.member.specimenName);
  }
}

/** The station where it is taken: the set's own, unless its specimen is under way already. */
export function leadsTo(step: NextStep): Station {
  switch (step.kind) {
    case 'certificate':
      return 'certificate';
    case 'pulling':
      return 'pull';
    case 'pull':
      if (!draftIsKept.value || step.member.specimenName !== draft.value.id) return 'set';
      return (session.value?.readout ?? null) === null ? 'readout' : 'pull';
    case 'look':
      return endedPull.value?.kept.value?.specimenName === step.member.specimenName ? 'fracture' : 'set';
    case 'measure':
    case 'judge':
      return 'set';
  }
}

export async function takeStep(step: NextStep): Promise<void> {
  const opened = openedSet.value;
  if (opened === null) return;
  switch (step.kind) {
    case 'measure':
      await measureForSet(opened, null);
      return;
    case 'certificate':
      goTo('certificate');
      return;
    case 'pull':
      await pullMember(opened, step.member.setMemberId);
      return;
    case 'pulling':
      goTo('pull');
      return;
    case 'look':
      openMembersPull(opened, step.member.setMemberId, true);
      return;
    case 'judge':
      shownMember.value = step.member.setMemberId;
  }
}

/** The section that a specimen of this type usually has; it can be chosen otherwise. */
const USUAL_KIND: Readonly<Record<SpecimenType, GeometryKind>> = {
  'transverse-flat': 'flat',
  'transverse-turned': 'round',
  'full-section-pipe': 'tube',
  'pipe-strip': 'pipe-strip',
  'all-weld-metal-round': 'round',
  longitudinal: 'flat',
};

/** Begins a new specimen that joins the set when it is kept. */
export async function measureForSet(opened: OpenedSet, retest: Carried['retest']): Promise<void> {
  if (recording.value) {
    say(words.value.set.notWhilePulling);
    return;
  }
  const { kept } = opened;
  await nextSpecimen();
  drawnAtOnce(() => {
    carried.value = { setId: kept.setId, setName: kept.set.form.name, retest };
    changeDraft({ kind: USUAL_KIND[kept.set.form.specimenType] });
  });
  document.getElementById('specimen-identity')?.focus();
}

/** Takes the specimen up again and goes to where it can be pulled. */
export async function pullMember({ kept }: OpenedSet, setMemberId: number): Promise<void> {
  const member = kept.members.find((one) => one.setMemberId === setMemberId);
  if (member === undefined) return;
  if (recording.value) {
    say(words.value.set.notWhilePulling);
    return;
  }
  const specimen = await request('specimen.get', { specimenId: member.specimenId });
  if (!specimen.ok) {
    say(told(specimen.fault.sentence));
    return;
  }
  if (sessionState.value === 'ended' || heldOpen.value) await request('pull.put-away', {});
  takeUp(specimen.value);
  goTo((session.value?.readout ?? null) === null ? 'readout' : 'pull');
}

/** Its pull where it lies: on the sheet while it is the newest, else in the archive. */
export function openMembersPull({ kept }: OpenedSet, setMemberId: number, toFracture = false): void {
  const pullId = kept.members.find((one) => one.setMemberId === setMemberId)?.pullId ?? null;
  if (pullId === null) return;
  if (endedPull.value?.pullId === pullId) {
    goTo('fracture');
    return;
  }
  archivePullId.value = pullId;
  goTo('archive');
  if (toFracture) showWhenThere('input[name="fracture-place"]', () => archivePullId.value === pullId);
}

/** A long pull is read from the archive first. */
const READ_MS_MAX = 10_000;

/** Brings what is drawn later into view, and the keys to it; gives up where the person has gone elsewhere. */
function showWhenThere(selector: string, stillThere: () => boolean): void {
  whenThere(
    () => (stillThere() ? document.querySelector<HTMLElement>(selector) : null),
    stillThere,
    (found) => {
      if (found === null) return;
      (found.closest('.block') ?? found).scrollIntoView({ block: 'start' });
      found.focus({ preventScroll: true });
    },
    READ_MS_MAX,
  );
}
