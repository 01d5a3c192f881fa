/** Entry of a PIN: never shown, never offered again. */
import { FieldFault } from '../design/field.tsx';

/** As the contract takes it. */
const PIN_LENGTH_MAX = 64;

export interface PinFieldProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly fault?: string | null;
  readonly onInput: (value: string) => void;
}

export function PinField({ id, label, value, fault = null, onInput }: PinFieldProps) {
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        class="entry"
        type="password"
        autocomplete="off"
        maxLength={PIN_LENGTH_MAX}
        value={value}
        aria-invalid={fault === null ? undefined : true}
        aria-describedby={fault === null ? undefined : `${id}-fault`}
        onInput={(event) => onInput(event.currentTarget.value)}
      />
      <FieldFault id={`${id}-fault`} sentence={fault} />
    </div>
  );
}
