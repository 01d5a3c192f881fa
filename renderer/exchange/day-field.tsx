/** A field for the day on which a pull was made elsewhere, with its time where that is known. */
import { DateField } from '../design/date-field.tsx';
import { words } from '../words/words.ts';
import { statedOf } from './stated-of.ts';

export function DayField({
  id,
  value,
  required,
  onInput,
}: {
  readonly id: string;
  readonly value: string;
  readonly required?: boolean;
  readonly onInput: (text: string) => void;
}) {
  const text = words.value.exchange;
  return (
    <DateField
      id={id}
      label={text.pulledOn}
      hint={text.pulledOnHint}
      value={value}
      required={required === true}
      fault={statedOf(value).fault}
      onInput={onInput}
    />
  );
}
