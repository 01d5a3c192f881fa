/** One specimen of the set: its verdict with all it rests on, and what a person may do about it. */
import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { KeptMember, MemberVerdict } from '../../../core/contract/set-requests.ts';
import { Button } from '../../design/button.tsx';
import { goTo } from '../../store/place.ts';
import { words } from '../../words/words.ts';
import { certifiedMember, certifiedPull } from '../certificate/certificate-choice.ts';
import { OverrideDialog, RetestDialog, VoidDialog } from './member-dialogs.tsx';
import { openMembersPull, pullMember } from './next-step.ts';
import type { OpenedSet } from './open-set.ts';
import { draftOfSet, setDraft, wantedEntry } from './set-draft.ts';
import { VerdictBlock } from './verdict-block.tsx';

export function MemberSheet({
  opened,
  member,
  place,
}: {
  readonly opened: OpenedSet;
  readonly member: MemberVerdict;
  readonly place: KeptMember;
}) {
  const text = words.value.set;
  const dialog = useSignal<'void' | 'retest' | 'override' | null>(null);
  const head = useRef<HTMLHeadingElement>(null);
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => head.current?.focus(), [member.setMemberId]);
  const close = () => (dialog.value = null);
  const isVoid = place.voided !== null;
  return (
    <section class="member-sheet" aria-label={text.verdict.of(member.specimenName)}>
      <h2 ref={head} tabIndex={-1}>
        {text.verdict.of(member.specimenName)}
        {place.pullId === null ? null : (
          <span class="pencil small"> {text.pullNumber(String(place.pullId))}</span>
        )}
      </h2>
      <VerdictBlock member={member} />
      <div class="actions">
        {member.stage === 'to-pull' ? (
          <Button kind="compact" onPress={() => void pullMember(opened, member.setMemberId)}>
            {text.acts.pull}
          </Button>
        ) : null}
        {place.pullId === null ? null : (
          <>
            <Button kind="compact" onPress={() => openMembersPull(opened, member.setMemberId)}>
              {text.acts.open}
            </Button>
            <Button
              kind="compact"
              onPress={() => {
                certifiedMember.value = member.setMemberId;
                certifiedPull.value = null;
                goTo('certificate');
              }}
            >
              {text.acts.certificate}
            </Button>
          </>
        )}
        {(member.verdict?.decision ?? null) === null ? null : (
          <Button
            kind="compact"
            onPress={() => {
              wantedEntry.value = 'decisionRule';
              setDraft.value = draftOfSet(opened.kept.setId, opened.kept.set.form);
            }}
          >
            {text.verdict.decideElse}
          </Button>
        )}
        {isVoid ? null : (
          <>
            {member.outcome === null ? null : (
              <Button kind="compact" onPress={() => (dialog.value = 'override')}>
                {text.acts.override}
              </Button>
            )}
            {place.retestOf === null && member.outcome !== null ? (
              <Button kind="compact" onPress={() => (dialog.value = 'retest')}>
                {text.acts.retest}
              </Button>
            ) : null}
            <Button kind="compact" onPress={() => (dialog.value = 'void')}>
              {text.acts.voidIt}
            </Button>
          </>
        )}
      </div>
      {dialog.value === 'void' ? <VoidDialog member={member} onClose={close} /> : null}
      {dialog.value === 'retest' ? <RetestDialog opened={opened} member={member} onClose={close} /> : null}
      {dialog.value === 'override' ? <OverrideDialog member={member} onClose={close} /> : null}
    </section>
  );
}
