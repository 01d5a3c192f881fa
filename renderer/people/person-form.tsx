/** One person entered or corrected. A correction needs its reason, and the PIN of whoever has one. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import { PERSON_ROLES, type Person, pin as pinForm } from '../../core/contract/people-requests.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { Button } from '../design/button.tsx';
import { focusFirstFault } from '../design/focus-fault.ts';
import { FaultBlock, Field } from '../design/field.tsx';
import { LeaveForm } from '../design/leave-form.tsx';
import { say } from '../design/said.tsx';
import { errand } from '../store/errand.ts';
import { readPeople } from '../store/people.ts';
import { HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import { request } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { PinField } from './pin-field.tsx';

/** As long as a sign on a drawing. */
const SIGN_LENGTH_MAX = 12;

const saving = errand();

type Role = (typeof PERSON_ROLES)[number];
type PinChange = 'as-it-is' | 'new' | 'none';

/** By the statement that is corrected, or `new`. PINs are typed anew each time. */
const held = new HeldTyping<{
  readonly name: Signal<string>;
  readonly sign: Signal<string>;
  readonly roles: Signal<readonly Role[]>;
  readonly reason: Signal<string>;
}>('person');

export function PersonForm({
  before,
  onClose,
}: {
  readonly before: Person | null;
  readonly onClose: () => void;
}) {
  const text = words.value.people;
  const subject = before?.personId ?? 'new';
  const { name, sign, roles, reason } = useHeldTyping(held, subject, () => ({
    name: signal(before?.name ?? ''),
    sign: signal(before?.sign ?? ''),
    roles: signal<readonly Role[]>(before?.roles ?? []),
    reason: signal(''),
  }));
  const pinChange = useSignal<PinChange>('as-it-is');
  const [pin, pinAgain, pinBefore] = [useSignal(''), useSignal(''), useSignal('')];
  const tried = useSignal(false);
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => {
    saving.fault.value = null;
    document.getElementById('person-name')?.focus();
  }, []);

  const newPin = pinChange.value === 'new';
  const faults = {
    name: name.value.trim() === '' ? text.nameNeeded : null,
    sign: sign.value.trim() === '' ? text.signNeeded : null,
    pin: newPin && !pinForm.safeParse(pin.value).success ? text.pinLength : null,
    pinAgain: newPin && pin.value !== pinAgain.value ? text.pinDiffers : null,
    pinBefore: before?.hasPin === true && pinBefore.value === '' ? text.pinNeeded : null,
    reason: before !== null && reason.value.trim() === '' ? words.value.set.reasonNeeded : null,
  };
  const shown = (field: keyof typeof faults): string | null => (tried.value ? faults[field] : null);

  const save = async (retired: boolean) => {
    tried.value = true;
    if (Object.values(faults).some((fault) => fault !== null)) {
      focusFirstFault('.person-form');
      return;
    }
    const saved = await saving.run(() =>
      request('people.save', {
        name: name.value.trim(),
        sign: sign.value.trim(),
        roles: [...roles.value],
        retired,
        ...(newPin ? { pin: pin.value } : pinChange.value === 'none' ? { pin: null } : {}),
        ...(before === null ? {} : { supersedes: before.personId, reason: reason.value.trim() }),
        ...(pinBefore.value === '' ? {} : { pinBefore: pinBefore.value }),
      }),
    );
    pinBefore.value = '';
    if (saved === null) return;
    held.letGo(subject);
    await readPeople();
    say(retired ? text.isRetired(name.value.trim()) : text.isKept(name.value.trim()));
    onClose();
  };

  return (
    <form
      class="person-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save(false);
      }}
    >
      <h3>{before === null ? text.add : text.correct(before.name)}</h3>
      <div class="entry-row">
        <Field
          id="person-name"
          label={text.name}
          value={name.value}
          lengthMax={NAME_LENGTH_MAX}
          required
          fault={shown('name')}
          onInput={(value) => (name.value = value)}
        />
        <Field
          id="person-sign"
          label={text.sign}
          hint={text.signHint}
          value={sign.value}
          lengthMax={SIGN_LENGTH_MAX}
          required
          fault={shown('sign')}
          onInput={(value) => (sign.value = value)}
        />
      </div>
      <fieldset class="field">
        <legend class="field-label">{text.roles}</legend>
        <div class="choice">
          {PERSON_ROLES.map((role) => (
            <label key={role}>
              <input
                type="checkbox"
                checked={roles.value.includes(role)}
                onChange={(event) =>
                  (roles.value = event.currentTarget.checked
                    ? [...roles.value, role]
                    : roles.value.filter((one) => one !== role))
                }
              />
              <span>{text.roleWords[role]}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <fieldset class="field">
        <legend class="field-label">{text.pin}</legend>
        <div class="choice">
          {(['as-it-is', 'new', 'none'] as const)
            .filter((change) => change !== 'none' || before?.hasPin === true)
            .map((change) => (
              <label key={change}>
                <input
                  type="radio"
                  name="pin-change"
                  checked={pinChange.value === change}
                  onChange={() => (pinChange.value = change)}
                />
                <span>{before?.hasPin === true ? text.pinChanges[change] : text.pinFirst[change]}</span>
              </label>
            ))}
        </div>
      </fieldset>
      {newPin ? (
        <div class="entry-row">
          <PinField
            id="person-pin"
            label={text.newPin}
            value={pin.value}
            fault={shown('pin')}
            onInput={(value) => (pin.value = value)}
          />
          <PinField
            id="person-pin-again"
            label={text.newPinAgain}
            value={pinAgain.value}
            fault={shown('pinAgain')}
            onInput={(value) => (pinAgain.value = value)}
          />
        </div>
      ) : null}
      {before === null ? null : (
        <div class="entry-row">
          {before.hasPin ? (
            <PinField
              id="person-pin-before"
              label={text.pinBefore}
              value={pinBefore.value}
              fault={shown('pinBefore')}
              onInput={(value) => (pinBefore.value = value)}
            />
          ) : null}
          <Field
            id="person-reason"
            label={words.value.set.reason}
            value={reason.value}
            lengthMax={TEXT_LENGTH_MAX}
            required
            fault={shown('reason')}
            onInput={(value) => (reason.value = value)}
          />
        </div>
      )}
      <FaultBlock fault={saving.fault.value} />
      <div class="actions">
        <Button kind="call" id="keep-person" onPress={() => void save(before?.retired ?? false)}>
          {before === null ? text.keep : text.keepCorrection}
        </Button>
        {before === null ? null : (
          <Button id="retire-person" onPress={() => void save(!before.retired)}>
            {before.retired ? text.takeBack : text.retire}
          </Button>
        )}
        <LeaveForm
          isTyped={
            held.isTyped(subject) ||
            pinChange.value !== 'as-it-is' ||
            [pin, pinAgain, pinBefore].some(({ value }) => value !== '')
          }
          onPress={() => {
            held.letGo(subject);
            onClose();
          }}
        />
      </div>
      <button type="submit" hidden />
    </form>
  );
}
