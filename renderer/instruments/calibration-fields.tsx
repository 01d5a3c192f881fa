/** What a certificate of calibration says, as fields; the same for one that comes from elsewhere and one made here. */
import type { Signal } from '@preact/signals';
import { typedDay } from '../../core/calendar-day.ts';
import { type CalibrationForm, calibrationForm } from '../../core/instruments/calibration.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { shapeFaults } from '../../core/shape-faults.ts';
import { DateField } from '../design/date-field.tsx';
import { Field } from '../design/field.tsx';
import { words } from '../words/words.ts';
import { filled } from './form-text.ts';

export const BLANK_CALIBRATION = { certificateNumber: '', calibratedOn: '', dueOn: '', by: '' };
export type EnteredCalibration = typeof BLANK_CALIBRATION;

export type CheckedCalibration =
  | { readonly ok: true; readonly form: CalibrationForm }
  | { readonly ok: false; readonly faults: ReadonlyMap<string, string> };

/** Kept with Enter the field was not left: what is typed was not written as a day yet. A time goes with none of these. */
function asDay(typed: string): string {
  const read = typedDay(typed);
  return read === null || read.time !== null ? typed : read.day;
}

/** `further`: what stands beside these fields (range, table, worksheet). */
export function checkedCalibration(entered: EnteredCalibration, further: object): CheckedCalibration {
  const { calibratedOn, dueOn } = entered;
  const days = { calibratedOn: asDay(calibratedOn), dueOn: asDay(dueOn) };
  const said = { ...filled({ ...entered, ...days }), ...further };
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
  const its = (key: keyof EnteredCalibration, label: string) => ({
    id: `calibration-${key}`,
    label,
    value: entered.value[key],
    fault: faults.get(key) ?? null,
    onInput: (value: string) => (entered.value = { ...entered.value, [key]: value }),
  });
  return (
    <div class="entry-row">
      <Field {...its('certificateNumber', text.certificateNumber)} lengthMax={NAME_LENGTH_MAX} />
      <DateField {...its('calibratedOn', text.calibratedOn)} hint={text.dayHint} isAsked />
      <DateField {...its('dueOn', text.dueOn)} hint={text.dayHint} isAsked />
      <Field {...its('by', text.calibratedBy)} lengthMax={NAME_LENGTH_MAX} />
    </div>
  );
}
