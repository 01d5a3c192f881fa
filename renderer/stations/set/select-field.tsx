/** One of many: a list that opens, with its label above and its fault beneath. */
import { useId } from 'preact/hooks';
import { FieldFault } from '../../design/field.tsx';
import { SymbolText } from '../../design/symbol-text.tsx';

export interface SelectOption {
  readonly value: string;
  readonly label: string;
  readonly group?: string;
}

export function SelectField({
  id: given,
  label,
  value,
  options,
  fault,
  onChoose,
}: {
  readonly id?: string;
  readonly label: string;
  readonly value: string;
  readonly options: readonly SelectOption[];
  readonly fault?: string | undefined;
  readonly onChoose: (value: string) => void;
}) {
  const ownId = useId();
  const id = given ?? ownId;
  const groups = [...new Set(options.map((option) => option.group))];
  const list = (group: string | undefined) =>
    options
      .filter((option) => option.group === group)
      .map((option) => (
        <option key={option.value} value={option.value} selected={option.value === value}>
          {option.label}
        </option>
      ));
  return (
    <div class="field">
      <label for={id}>
        <SymbolText text={label} />
      </label>
      <select
        id={id}
        class="entry"
        aria-invalid={fault === undefined ? undefined : true}
        aria-describedby={fault === undefined ? undefined : `${id}-fault`}
        onChange={(event) => onChoose(event.currentTarget.value)}
      >
        {groups.map((group) =>
          group === undefined ? (
            list(undefined)
          ) : (
            <optgroup key={group} label={group}>
              {list(group)}
            </optgroup>
          ),
        )}
      </select>
      <FieldFault id={`${id}-fault`} sentence={fault} />
    </div>
  );
}
