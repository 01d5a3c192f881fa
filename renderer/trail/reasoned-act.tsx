/** An act that stays for ever: what it means is told, a name is offered or asked for, and a reason, before it is done. */
import { type Signal, signal, useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { type AskedButton, AskedButtons, WhatButtonsDo } from '../design/asked-buttons.tsx';
import { focusFirstFault } from '../design/focus-fault.ts';
import { FaultBlock, Field } from '../design/field.tsx';
import { leaveWords } from '../design/leave-form.tsx';
import { SheetDialog } from '../keys/sheet-dialog.tsx';
import { person } from '../stations/set/person.ts';
import { PersonField } from '../people/person-field.tsx';
import type { Errand } from '../store/errand.ts';
import { HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import { words } from '../words/words.ts';

const held = new HeldTyping<{ readonly reason: Signal<string> }>('reason');

export interface ReasonedActProps {
  /** The act and what it is done to, by number: "void-pull 12". A reason that was typed and not sent is held for it. */
  readonly subject: string;
  readonly title: string;
  readonly means: string;
  readonly act: string;
  readonly errand: Errand;
  /** The name: may be given, must be given (with its label), or isn't asked for. */
  readonly who?: { readonly label: string } | 'not-asked';
  readonly onClose: () => void;
  /** It was done or given up: what else was typed is missed no more. */
  readonly onOver?: () => void;
  /** Whether there is such. */
  readonly isMoreTyped?: boolean;
  /** True when it was done. `by` is left out where no name was given. */
  readonly onAct: (given: { readonly by?: string; readonly reason: string }) => Promise<boolean>;
  /** What else is to be chosen. */
  readonly children?: ComponentChildren;
}

export function ReasonedAct({
  subject,
  title,
  means,
  act,
  errand,
  who,
  onClose,
  onOver,
  isMoreTyped = false,
  onAct,
  children,
}: ReasonedActProps) {
  const text = words.value.set;
  const { reason } = useHeldTyping(held, subject, () => ({ reason: signal('') }));
  const tried = useSignal(false);
  const nameNeeded = typeof who === 'object';
  const close = () => {
    errand.fault.value = null;
    onClose();
  };
  const giveUp = () => {
    held.letGo(subject);
    onOver?.();
    close();
  };
  const done = async () => {
    tried.value = true;
    const [by, why] = [person.value.trim(), reason.value.trim()];
    if (why === '' || (nameNeeded && by === '')) {
      focusFirstFault('.sheet-dialog');
      return;
    }
    if (await onAct({ ...(by === '' ? {} : { by }), reason: why })) giveUp();
  };
  const isTyped = held.isTyped(subject) || isMoreTyped;
  const buttons: readonly AskedButton[] = [
    { label: act, means, kind: 'call', onPress: () => void done() },
    { label: leaveWords(isTyped), means: words.value.common.leaveMeans, onPress: giveUp },
  ];
  return (
    <SheetDialog title={title} onClose={close}>
      <form
        class="reasoned"
        onSubmit={(event) => {
          event.preventDefault();
          void done();
        }}
      >
        <WhatButtonsDo buttons={buttons} />
        {children}
        {who === 'not-asked' ? null : (
          <PersonField
            label={who?.label ?? text.by}
            value={person.value}
            required={nameNeeded}
            fault={nameNeeded && tried.value && person.value.trim() === '' ? text.personNeeded : null}
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
        <FaultBlock fault={errand.fault.value} />
        <AskedButtons buttons={buttons} />
        <button type="submit" hidden />
      </form>
    </SheetDialog>
  );
}
