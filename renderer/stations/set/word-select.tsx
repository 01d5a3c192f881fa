/** One word of a fixed list, chosen under its name in the language of the page. */
import { SelectField } from './select-field.tsx';

export interface WordSelectProps<T extends string> {
  readonly id?: string;
  readonly label: string;
  readonly value: T;
  readonly choices: readonly T[];
  readonly names: Readonly<Record<T, string>>;
  readonly onChoose: (value: T) => void;
}

export function WordSelect<T extends string>({ choices, names, onChoose, ...field }: WordSelectProps<T>) {
  return (
    <SelectField
      {...field}
      options={choices.map((value) => ({ value, label: names[value] }))}
      onChoose={(value) => {
        const chosen = choices.find((one) => one === value);
        if (chosen !== undefined) onChoose(chosen);
      }}
    />
  );
}
