/** A field for the day on which a pull was made elsewhere. */
import { Field } from '../design/field.tsx';
import { words } from '../words/words.ts';
import { statedOf } from './stated-of.ts';

/** "2019-05-14 10:30" and blanks beside it. */
const LENGTH_MAX = 20;

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
  // While it is being typed it is no day yet: nothing is called wrong before it is as long as one.
  const isLongEnough = value.trim().length >= '2019-05-14'.length;
  return (
    <Field
      id={id}
      label={text.pulledOn}
      hint={text.pulledOnHint}
      value={value}
      number
      lengthMax={LENGTH_MAX}
      required={required === true}
      fault={isLongEnough ? statedOf(value).fault : null}
      onInput={onInput}
    />
  );
}
