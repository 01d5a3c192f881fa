/** What a certificate of calibration says, as fields; the same for one that comes from elsewhere and one made here. */
import type { Signal } from '@preact/signals';
import { type CalibrationForm, calibrationForm } from '../../core/instruments/calibration.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { shapeFaults } from '../../core/shape-faults.ts';
import { Field } from '../design/field.tsx';
import { words } from '../words/words.ts';
import { filled } from './form-text.ts';

export const BLANK_CALIBRATION = { certificateNumber: '', calibratedOn: '', dueOn: '', by: '' };
export type EnteredCalibration = typeof BLANK_CALIBRATION;

export type CheckedCalibration =
  | { readonly ok: true; readonly form: CalibrationForm }
  | { readonly ok: false; readonly faults: ReadonlyMap<string, string> };

/** `further`: what stands beside these fields (range, table, worksheet). */
export function checkedCalibration(entered: EnteredCalibration, further: object): CheckedCalibration {
  const said = { ...filled(entered), ...further };
  const checked = calibrationForm.safeParse(said);
  if (checked.success) return { ok: true, form: checked.data };
  const faults = shapeFaults(checked.error.issues, said, {
    whole: 'The calibration',
    schema: calibrationForm,
    isForm: true,
  });
  return {
    ok: false,
    faults: new Map(faults.map(({ field, sentence }) => [field, sentence.replace(/^[\w.[\]]+: /, '')])),
  };
}

export interface CalibrationFieldsProps {
  readonly entered: Signal<EnteredCalibration>;
  /** Empty until keeping was tried. */
  readonly faults: ReadonlyMap<string, string>;
}

export function CalibrationFields({ entered, faults }: CalibrationFieldsProps) {
  const text = words.value.instruments;
  const field = (key: keyof EnteredCalibration, label: string, hint?: string) => (
    <Field
      id={`calibration-${key}`}
      label={label}
      hint={hint}
      value={entered.value[key]}
      lengthMax={NAME_LENGTH_MAX}
      fault={faults.get(key) ?? null}
      onInput={(value) => (entered.value = { ...entered.value, [key]: value })}
    />
  );
  return (
    <div class="entry-row">
      {field('certificateNumber', text.certificateNumber)}
      {field('calibratedOn', text.calibratedOn, text.dayHint)}
      {field('dueOn', text.dueOn, text.dayHint)}
      {field('by', text.calibratedBy)}
    </div>
  );
}
