/** A field for a day, year-month-day as everywhere on the page: signs between are forgiven, arrow keys go from day to day. */
import { useSignal } from '@preact/signals';
import { dayHere, dayLater, typedDay } from '../../core/calendar-day.ts';
import { dayInWords } from '../numbers/format.ts';
import { language } from '../store/view-settings.ts';
import { Field } from './field.tsx';
import { sayAloud } from './said.tsx';

/** "2019-05-14 10:30" and blanks beside it. */
const LENGTH_MAX = 20;
const DAY_LENGTH = '2019-05-14'.length;

export interface DateFieldProps {
  readonly id?: string;
  readonly label: string;
  readonly hint: string;
  /** As it is typed; `typedDay` reads it. */
  readonly value: string;
  readonly required?: boolean;
  /** What is wrong with it; told once it is as long as a day, or left. */
  readonly fault: string | null;
  /** Told at once: of a form that somebody tried to keep. */
  readonly isAsked?: boolean;
  readonly onInput: (text: string) => void;
}

export function DateField({ id, label, hint, value, required, fault, isAsked, onInput }: DateFieldProps) {
  const isLeft = useSignal(false);
  const read = typedDay(value);
  const write = (day: string): void => {
    const time = typedDay(value)?.time ?? null;
    const text = time === null ? day : `${day} ${time}`;
    if (text !== value) onInput(text);
  };
  // While it is being typed it is no day yet: nothing is called wrong before it is as long as one.
  const isTyped = isAsked === true || isLeft.value || read !== null || value.trim().length >= DAY_LENGTH;
  return (
    <Field
      {...(id === undefined ? {} : { id })}
      label={label}
      hint={hint}
      value={value}
      number
      lengthMax={LENGTH_MAX}
      required={required === true}
      fault={isTyped ? fault : null}
      onInput={(text) => {
        isLeft.value = false;
        onInput(text);
      }}
      onLeave={() => {
        isLeft.value = true;
        if (read !== null) write(read.day);
      }}
      onStep={(days) => {
        const day = steppedDay(value, days, new Date());
        if (day === null) return;
        write(day);
        sayAloud(dayInWords(day, language.value));
      }}
    />
  );
}

/** Of an empty field today, by the clock of this place; null where what stands there is no day. */
export function steppedDay(value: string, days: number, now: Date): string | null {
  if (value.trim() === '') return dayHere(now);
  const read = typedDay(value);
  return read === null ? null : dayLater(read.day, days);
}
