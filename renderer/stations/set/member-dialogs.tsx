/** What a person decides about one specimen of a set. Each asks for a name where one is needed, and for a reason. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { OUTCOMES, type Outcome } from '../../../core/acceptance/verdict.ts';
import type { MemberVerdict } from '../../../core/contract/set-requests.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../../core/limits.ts';
import { Button } from '../../design/button.tsx';
import { Choice, FaultBlock, Field } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { SheetDialog } from '../../keys/sheet-dialog.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { measureForSet } from './next-step.ts';
import { type OpenedSet, refreshSet } from './open-set.ts';
import { person } from './person.ts';

interface MemberDialogProps {
  readonly member: MemberVerdict;
  readonly onClose: () => void;
}

const deciding = errand();

interface ReasonedProps {
  readonly title: string;
  readonly means: string;
  readonly act: string;
  /** Label of the name's entry; null where no name is asked for. */
  readonly who: string | null;
  readonly onClose: () => void;
  /** True when it was done. */
  readonly onAct: (given: { readonly by: string; readonly reason: string }) => Promise<boolean>;
  readonly children?: ComponentChildren;
}

/** Name and reason are asked for before anything is done; the button that does it says what happens. */
function Reasoned({ title, means, act, who, onClose, onAct, children }: ReasonedProps) {
  const text = words.value.set;
  const reason = useSignal('');
  const tried = useSignal(false);
  const done = async () => {
    tried.value = true;
    const given = { by: person.value.trim(), reason: reason.value.trim() };
    if (given.reason === '' || (who !== null && given.by === '')) {
      requestAnimationFrame(() =>
        document.querySelector<HTMLElement>('.sheet-dialog [aria-invalid="true"]')?.focus(),
      );
      return;
    }
    if (await onAct(given)) onClose();
  };
  return (
    <SheetDialog
      title={title}
      onClose={() => {
        deciding.fault.value = null;
        onClose();
      }}
    >
      <form
        class="reasoned"
        onSubmit={(event) => {
          event.preventDefault();
          void done();
        }}
      >
        <p>{means}</p>
        {children}
        {who === null ? null : (
          <Field
            label={who}
            value={person.value}
            lengthMax={NAME_LENGTH_MAX}
            required
            fault={tried.value && person.value.trim() === '' ? text.personNeeded : null}
            onInput={(value) => (person.value = value)}
          />
        )}
        <Field
          label={text.reason}
          value={reason.value}
          lengthMax={TEXT_LENGTH_MAX}
          required
          fault={tried.value && reason.value.trim() === '' ? text.reasonNeeded : null}
          onInput={(value) => (reason.value = value)}
        />
        <FaultBlock fault={deciding.fault.value} />
        <div class="actions">
          <Button kind="call" onPress={() => void done()}>
            {act}
          </Button>
          <Button onPress={onClose}>{text.cancel}</Button>
        </div>
        <button type="submit" hidden />
      </form>
    </SheetDialog>
  );
}

export function VoidDialog({ member, onClose }: MemberDialogProps) {
  const text = words.value.set;
  return (
    <Reasoned
      {...text.voidDialog}
      title={text.voidDialog.title(member.specimenName)}
      who={text.by}
      onClose={onClose}
      onAct={async (given) => {
        const done = await deciding.run(() =>
          request('set.void-member', { setMemberId: member.setMemberId, ...given }),
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
    <Reasoned
      {...text.retestDialog}
      title={text.retestDialog.title(member.specimenName)}
      who={null}
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
    <Reasoned
      {...text.overrideDialog}
      title={text.overrideDialog.title(member.specimenName)}
      who={text.person}
      onClose={onClose}
      onAct={async ({ by, reason }) => {
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
    </Reasoned>
  );
}
