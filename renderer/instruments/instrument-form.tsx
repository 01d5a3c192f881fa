/** One instrument entered or corrected. A correction needs its reason. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useId, useLayoutEffect } from 'preact/hooks';
import type { InstrumentLine } from '../../core/contract/instrument-requests.ts';
import {
  INSTRUMENT_KINDS,
  type InstrumentKind,
  MEASURES,
  instrumentForm,
} from '../../core/instruments/instrument.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { shapeFaults } from '../../core/shape-faults.ts';
import { Button } from '../design/button.tsx';
import { focusFirstFault } from '../design/focus-fault.ts';
import { FaultBlock, Field } from '../design/field.tsx';
import { LeaveForm } from '../design/leave-form.tsx';
import { say } from '../design/said.tsx';
import { displayUnit } from '../numbers/display-unit.ts';
import { errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';
import { HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import { useSteps } from '../store/taken-back.ts';
import { units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { person } from '../stations/set/person.ts';
import { PersonField } from '../people/person-field.tsx';
import { filled, rangeOf, saidBy } from './form-text.ts';
import { readRegister } from './register.ts';

const saving = errand();

/** What is entered, from what was said before. */
const entriesOf = (said: InstrumentLine['form'] | undefined) => ({
  name: said?.name ?? '',
  serialNumber: said?.serialNumber ?? '',
  description: said?.description ?? '',
  from: said?.range?.from ?? '',
  to: said?.range?.to ?? '',
  resolution: said?.resolution ?? '',
  class: said?.class ?? '',
  notes: said?.notes ?? '',
  reason: '',
});

/** By the statement that is corrected, or `new`. */
const held = new HeldTyping<{
  readonly kind: Signal<InstrumentKind>;
  readonly entered: Signal<ReturnType<typeof entriesOf>>;
}>('instrument');

export interface InstrumentFormProps {
  readonly before: InstrumentLine | null;
  readonly onClose: () => void;
  readonly onKept: (instrumentId: number) => void;
}

export function InstrumentForm({ before, onClose, onKept }: InstrumentFormProps) {
  const text = words.value.instruments;
  const subject = before?.statementId ?? 'new';
  const typed = useHeldTyping(held, subject, () => ({
    kind: signal<InstrumentKind>(before?.form.kind ?? 'force-channel'),
    entered: signal(entriesOf(before?.form)),
  }));
  const { kind, entered } = typed;
  useSteps({ instrumentKind: kind, instrument: entered }, typed);
  const giveUp = () => {
    held.letGo(subject);
    onClose();
  };
  const tried = useSignal(false);
  const kindId = useId();
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => {
    saving.fault.value = null;
    document.getElementById('instrument-name')?.focus();
  }, []);

  const { from, to, reason, ...fields } = entered.value;
  const range = rangeOf(from, to);
  const form = { kind: kind.value, ...filled(fields), ...(range === undefined ? {} : { range }) };
  const checked = instrumentForm.safeParse(form);
  const faults = checked.success
    ? []
    : shapeFaults(checked.error.issues, form, {
        whole: 'The instrument',
        schema: instrumentForm,
        isForm: true,
      });
  const faultOf = (field: string): string | null => {
    if (!tried.value) return null;
    if (field === 'reason') return before !== null && reason.trim() === '' ? text.reasonNeeded : null;
    return faults.find((one) => one.field === field)?.sentence.replace(/^[\w.[\]]+: /, '') ?? null;
  };

  const save = async () => {
    tried.value = true;
    if (!checked.success || (before !== null && reason.trim() === '')) {
      focusFirstFault('.instrument-form');
      return;
    }
    const saved = await saving.run(() =>
      request('instrument.save', {
        form: checked.data,
        ...saidBy(),
        ...(before === null
          ? {}
          : { supersedes: before.statementId, retired: before.retired, reason: reason.trim() }),
      }),
    );
    if (saved === null) return;
    held.letGo(subject);
    await readRegister();
    say(text.isKept(checked.data.name));
    onClose();
    onKept(saved.instrumentId);
  };

  const field = (
    key: keyof typeof entered.value,
    path: string,
    {
      label,
      hint,
      id,
      lengthMax = NAME_LENGTH_MAX,
    }: { label: string; hint?: string; id?: string; lengthMax?: number },
  ) => (
    <Field
      {...(id === undefined ? {} : { id })}
      label={label}
      hint={hint}
      value={entered.value[key]}
      lengthMax={lengthMax}
      fault={faultOf(path)}
      onInput={(value) => (entered.value = { ...entered.value, [key]: value })}
    />
  );
  const unit = displayUnit(MEASURES[kind.value], units.value);
  return (
    <form
      class="instrument-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <h3>{before === null ? text.add : text.correctTitle(before.form.name)}</h3>
      <div class="entry-row">
        {before === null ? (
          <div class="field">
            <label for={kindId}>{text.kind}</label>
            <select
              id={kindId}
              class="entry"
              value={kind.value}
              onChange={(event) => (kind.value = event.currentTarget.value as InstrumentKind)}
            >
              {INSTRUMENT_KINDS.map((one) => (
                <option key={one} value={one}>
                  {text.kinds[one]}
                </option>
              ))}
            </select>
          </div>
        ) : null}
        {field('name', 'name', { label: text.name, hint: text.nameHint, id: 'instrument-name' })}
        {field('serialNumber', 'serialNumber', { label: text.serialNumber })}
      </div>
      {field('description', 'description', {
        label: text.description,
        hint: text.descriptionHint,
        lengthMax: TEXT_LENGTH_MAX,
      })}
      <div class="entry-row">
        {field('from', 'range.from', { label: text.from })}
        {field('to', 'range.to', { label: text.to, hint: text.toHint(unit) })}
        {field('resolution', 'resolution', { label: text.resolution, hint: text.resolutionHint })}
        {field('class', 'class', { label: text.class, hint: text.classHint })}
      </div>
      {field('notes', 'notes', { label: text.notes, lengthMax: TEXT_LENGTH_MAX })}
      {before === null ? null : field('reason', 'reason', { label: text.reason, lengthMax: TEXT_LENGTH_MAX })}
      <PersonField label={text.by} value={person.value} onInput={(value) => (person.value = value)} />
      <FaultBlock fault={saving.fault.value} />
      <div class="actions">
        <Button kind="call" id="keep-instrument" onPress={() => void save()}>
          {before === null ? text.keep : text.keepCorrection}
        </Button>
        <LeaveForm isTyped={held.isTyped(subject)} onPress={giveUp} />
      </div>
      <button type="submit" hidden />
    </form>
  );
}
