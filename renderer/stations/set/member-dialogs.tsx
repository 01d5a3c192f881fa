/** What a person decides about one specimen of a set. Each asks for a name where one is needed, and for a reason. */
import { useSignal } from '@preact/signals';
import { OUTCOMES, type Outcome } from '../../../core/acceptance/verdict.ts';
import type { MemberVerdict } from '../../../core/contract/set-requests.ts';
import { Choice } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { ReasonedAct } from '../../trail/reasoned-act.tsx';
import { words } from '../../words/words.ts';
import { measureForSet } from './next-step.ts';
import { type OpenedSet, refreshSet } from './open-set.ts';

interface MemberDialogProps {
  readonly member: MemberVerdict;
  readonly onClose: () => void;
}

const deciding = errand();

export function VoidDialog({ member, onClose }: MemberDialogProps) {
  const text = words.value.set;
  return (
    <ReasonedAct
      {...text.voidDialog}
      subject={`void-member ${String(member.setMemberId)}`}
      title={text.voidDialog.title(member.specimenName)}
      errand={deciding}
      who={{ label: text.by }}
      onClose={onClose}
      onAct={async ({ by = '', reason }) => {
        const done = await deciding.run(() =>
          request('set.void-member', { setMemberId: member.setMemberId, by, reason }),
        );
        if (done === null) return false;
        say(text.voidDialog.done(member.specimenName));
        await refreshSet();
        return true;
      }}
    />
  );
}

export function RetestDialog({
  opened,
  member,
  onClose,
}: MemberDialogProps & { readonly opened: OpenedSet }) {
  const text = words.value.set;
  return (
    <ReasonedAct
      {...text.retestDialog}
      subject={`retest ${String(member.setMemberId)}`}
      title={text.retestDialog.title(member.specimenName)}
      errand={deciding}
      who="not-asked"
      onClose={onClose}
      onAct={async ({ reason }) => {
        await measureForSet(opened, { of: member.setMemberId, name: member.specimenName, reason });
        return true;
      }}
    />
  );
}

export function OverrideDialog({ member, onClose }: MemberDialogProps) {
  const text = words.value.set;
  const others = OUTCOMES.filter((outcome) => outcome !== member.outcome);
  const to = useSignal<Outcome>(others[0] ?? 'undecided');
  return (
    <ReasonedAct
      {...text.overrideDialog}
      subject={`override ${String(member.setMemberId)}`}
      title={text.overrideDialog.title(member.specimenName)}
      errand={deciding}
      who={{ label: text.person }}
      onClose={onClose}
      onAct={async ({ by = '', reason }) => {
        const done = await deciding.run(() =>
          request('set.override', { setMemberId: member.setMemberId, to: to.value, person: by, reason }),
        );
        if (done === null) return false;
        say(text.overrideDialog.done(member.specimenName, text.outcomes[to.value]));
        await refreshSet();
        return true;
      }}
    >
      <Choice
        name={text.overrideDialog.to}
        showName
        options={others.map((value) => ({ value, label: text.outcomes[value] }))}
        value={to.value}
        onChoose={(value) => (to.value = value)}
      />
    </ReasonedAct>
  );
}
