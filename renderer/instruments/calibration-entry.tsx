/** A calibration from its certificate, entered or corrected: number, days, range, correction table. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useId, useLayoutEffect } from 'preact/hooks';
import type { InstrumentLine, KeptCalibration } from '../../core/contract/instrument-requests.ts';
import { MEASURES } from '../../core/instruments/instrument.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../core/limits.ts';
import type { UnitSymbol } from '../../core/quantity/units.ts';
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
import {
  BLANK_CALIBRATION,
  CalibrationFields,
  type EnteredCalibration,
  checkedCalibration,
} from './calibration-fields.tsx';
import { person } from '../stations/set/person.ts';
import { PersonField } from '../people/person-field.tsx';
import { filled, rangeOf, saidBy } from './form-text.ts';
import { readHistory } from './open-instrument.ts';
import { readRegister } from './register.ts';

const saving = errand();

interface MoreEntered {
  readonly class: string;
  readonly from: string;
  readonly to: string;
  readonly table: string;
  readonly notes: string;
  readonly reason: string;
}

/** By instrument, and by the calibration that is corrected or `new`. */
const held = new HeldTyping<{
  readonly entered: Signal<EnteredCalibration>;
  readonly more: Signal<MoreEntered>;
  readonly tableUnit: Signal<UnitSymbol>;
}>('calibration');

const TABLE_UNITS = { force: ['N', 'kN', 'lbf', 'kip'], length: ['mm', 'in'] } as const;

export interface CalibrationEntryProps {
  readonly instrument: InstrumentLine;
  readonly before: KeptCalibration | null;
  readonly onClose: () => void;
}

/** "10 10.02", one point a line; null where a line holds something else. */
function pointsOf(typed: string): { shown: string; actual: string }[] | null {
  const lines = typed.split('\n').filter((line) => line.trim() !== '');
  const points = lines.map((line) => line.trim().split(/[\s;\t]+/));
  return points.every((cells) => cells.length === 2)
    ? points.map(([shown = '', actual = '']) => ({ shown, actual }))
    : null;
}

export function CalibrationEntry({ instrument, before, onClose }: CalibrationEntryProps) {
  const text = words.value.instruments;
  const dimension = MEASURES[instrument.form.kind];
  const said = before?.form;
  const subject = `${String(instrument.instrumentId)} ${String(before?.calibrationId ?? 'new')}`;
  const typed = useHeldTyping(held, subject, () => ({
    entered: signal<EnteredCalibration>({
      ...BLANK_CALIBRATION,
      ...(said === undefined
        ? {}
        : {
            certificateNumber: said.certificateNumber,
            calibratedOn: said.calibratedOn,
            dueOn: said.dueOn,
            by: said.by ?? '',
          }),
    }),
    more: signal<MoreEntered>({
      class: said?.class ?? '',
      from: said?.verifiedRange?.from ?? '',
      to: said?.verifiedRange?.to ?? '',
      table: (said?.correction?.points ?? []).map(({ shown, actual }) => `${shown} ${actual}`).join('\n'),
      notes: said?.notes ?? '',
      reason: '',
    }),
    tableUnit: signal<UnitSymbol>(said?.correction?.unit ?? displayUnit(dimension, units.value)),
  }));
  const { entered, more, tableUnit } = typed;
  useSteps({ calibration: entered, calibrationMore: more, tableUnit }, typed);
  const giveUp = () => {
    held.letGo(subject);
    onClose();
  };
  const tried = useSignal(false);
  const unitId = useId();
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => {
    saving.fault.value = null;
    document.getElementById('calibration-certificateNumber')?.focus();
  }, []);

  const points = pointsOf(more.value.table);
  const range = rangeOf(more.value.from, more.value.to);
  const checked = checkedCalibration(entered.value, {
    ...filled({ class: more.value.class, notes: more.value.notes }),
    ...(range === undefined ? {} : { verifiedRange: range }),
    ...(points === null || points.length === 0 ? {} : { correction: { unit: tableUnit.value, points } }),
    ...(said?.worksheet === undefined ? {} : { worksheet: said.worksheet }),
    ...(said?.extensionSheet === undefined ? {} : { extensionSheet: said.extensionSheet }),
  });
  const faults = new Map(tried.value && !checked.ok ? checked.faults : []);
  const tableFault =
    points === null ? text.tableWrong : [...faults].find(([field]) => field.startsWith('correction'))?.[1];
  const reasonMissing = before !== null && more.value.reason.trim() === '';

  const save = async () => {
    tried.value = true;
    if (!checked.ok || points === null || reasonMissing) {
      focusFirstFault('.instrument-form');
      return;
    }
    const saved = await saving.run(() =>
      request('instrument.calibrate', {
        instrumentId: instrument.instrumentId,
        form: checked.form,
        ...saidBy(),
        ...(before === null ? {} : { supersedes: before.calibrationId, reason: more.value.reason.trim() }),
      }),
    );
    if (saved === null) return;
    held.letGo(subject);
    await Promise.all([readRegister(), readHistory()]);
    say(text.calibrationKept(checked.form.certificateNumber));
    onClose();
  };

  const field = (
    key: keyof typeof more.value,
    label: string,
    { fault, lines = false }: { fault?: string | null | undefined; lines?: boolean } = {},
  ) => (
    <Field
      id={`calibration-${key}`}
      label={label}
      hint={key === 'table' ? text.tableHint : undefined}
      lines={lines}
      value={more.value[key]}
      lengthMax={key === 'table' || key === 'notes' || key === 'reason' ? TEXT_LENGTH_MAX : NAME_LENGTH_MAX}
      fault={tried.value ? fault : null}
      onInput={(value) => (more.value = { ...more.value, [key]: value })}
    />
  );
  return (
    <form
      class="instrument-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <h3>
        {said === undefined ? text.addCalibration : text.correctCalibrationTitle(said.certificateNumber)}
      </h3>
      <CalibrationFields entered={entered} faults={faults} />
      <div class="entry-row">
        {field('class', text.class)}
        {field('from', text.verifiedFrom, { fault: faults.get('verifiedRange.from') })}
        {field('to', text.verifiedTo, { fault: faults.get('verifiedRange.to') })}
      </div>
      <div class="entry-row">
        {field('table', text.correctionTable, { fault: tableFault, lines: true })}
        <div class="field">
          <label for={unitId}>{text.tableUnit}</label>
          <select
            id={unitId}
            class="entry"
            value={tableUnit.value}
            onChange={(event) => (tableUnit.value = event.currentTarget.value as UnitSymbol)}
          >
            {TABLE_UNITS[dimension].map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        </div>
      </div>
      {field('notes', text.notes)}
      {before === null
        ? null
        : field('reason', text.reason, { fault: reasonMissing ? text.reasonNeeded : null })}
      <PersonField label={text.by} value={person.value} onInput={(value) => (person.value = value)} />
      <FaultBlock fault={saving.fault.value} />
      <div class="actions">
        <Button kind="call" id="keep-calibration" onPress={() => void save()}>
          {text.keepCalibration}
        </Button>
        <LeaveForm isTyped={held.isTyped(subject)} onPress={giveUp} />
      </div>
      <button type="submit" hidden />
    </form>
  );
}
