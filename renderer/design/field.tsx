/** Entry fields: label above, hint beside the label, and the sentence of a fault beside what it is about. */
import { useId } from 'preact/hooks';
import type { Fault } from '../../core/contract/index.ts';
import { told } from '../words/told.ts';
import { SymbolText } from './symbol-text.tsx';
import './field.css';

export interface FieldProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly value: string;
  readonly onInput: (text: string) => void;
  readonly onLeave?: () => void;
  /** Enter, where the next thing to write stands elsewhere than behind Tab; nothing is sent then. */
  readonly onEnter?: () => void;
  /** Arrow keys up (1) and down (-1), where what is written has a next one. */
  readonly onStep?: (by: 1 | -1) => void;
  readonly fault?: string | null | undefined;
  /** Numbers stand in the face for digits. */
  readonly number?: boolean;
  readonly lines?: boolean;
  readonly placeholder?: string | undefined;
  readonly lengthMax?: number;
  readonly id?: string;
  readonly required?: boolean;
  /** What stands there is written over rather than gone on with: “1” must not become “11.02”. */
  readonly isReplaced?: boolean;
  /** Id of a datalist that offers what is known. */
  readonly list?: string;
}

export function Field(props: FieldProps) {
  const ownId = useId();
  const id = props.id ?? ownId;
  const faultId = `${id}-fault`;
  const attributes = {
    id,
    class: props.number === true ? 'entry number' : 'entry',
    value: props.value,
    placeholder: props.placeholder,
    maxLength: props.lengthMax,
    autocomplete: 'off',
    spellcheck: false,
    'aria-invalid': props.fault ? true : undefined,
    'aria-describedby': props.fault ? faultId : undefined,
    'aria-required': props.required,
    onBlur: () => props.onLeave?.(),
  };
  return (
    <div class="field">
      <label for={id}>
        <SymbolText text={props.label} />{' '}
        {props.hint === undefined ? null : (
          <span class="hint">
            <SymbolText text={props.hint} />
          </span>
        )}
      </label>
      {props.lines === true ? (
        <textarea {...attributes} onInput={(event) => props.onInput(event.currentTarget.value)} />
      ) : (
        <input
          type="text"
          {...attributes}
          list={props.list}
          onFocus={(event) => {
            if (props.isReplaced === true) event.currentTarget.select();
          }}
          onInput={(event) => props.onInput(event.currentTarget.value)}
          onKeyDown={(event) => {
            const step = STEPS[event.key];
            if (step !== undefined && props.onStep !== undefined && !hasModifier(event)) {
              event.preventDefault();
              props.onStep(step);
            }
            if (event.key !== 'Enter' || event.ctrlKey || event.metaKey || props.onEnter === undefined)
              return;
            event.preventDefault();
            props.onEnter();
          }}
        />
      )}
      <FieldFault id={faultId} sentence={props.fault} />
    </div>
  );
}

const STEPS: Readonly<Record<string, 1 | -1>> = { ArrowUp: 1, ArrowDown: -1 };
const hasModifier = (event: KeyboardEvent): boolean =>
  event.ctrlKey || event.metaKey || event.altKey || event.shiftKey;

export function FieldFault({
  id,
  sentence,
}: {
  readonly id: string;
  readonly sentence: string | null | undefined;
}) {
  if (!sentence) return null;
  return (
    <p id={id} class="field-fault">
      {asSentence(told(sentence))}
    </p>
  );
}

/** What stood behind the name of its field, "this is empty", begins a line here; a symbol or a unit stays as it is. */
const asSentence = (text: string): string =>
  text.replace(/^\p{Ll}(?=\p{L}{2,} )/u, (first) => first.toUpperCase());

/** A fault of a request: the sentence with a shape, said aloud at once. */
export function FaultBlock({ fault }: { readonly fault: Fault | null }) {
  if (fault === null) return null;
  return (
    <div class="fault-block" role="alert">
      <svg width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
        <path
          d="M11 2 21 20H1Z"
          fill="none"
          stroke="var(--cherry)"
          stroke-width="2.5"
          stroke-linejoin="round"
        />
        <path d="M11 8v5.5M11 15.6v2" stroke="var(--cherry)" stroke-width="2.5" />
      </svg>
      <p>{told(fault.sentence)}</p>
    </div>
  );
}

export interface ChoiceProps<T extends string> {
  readonly name: string;
  readonly options: readonly { readonly value: T; readonly label: string }[];
  readonly value: T;
  readonly onChoose: (value: T) => void;
  readonly showName?: boolean;
}

/** One of a few: radio buttons side by side. */
export function Choice<T extends string>({
  name,
  options,
  value,
  onChoose,
  showName = false,
}: ChoiceProps<T>) {
  const group = useId();
  return (
    <fieldset class="field">
      <legend class={showName ? 'field-label' : 'heard'}>{name}</legend>
      <div class="choice">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={group}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChoose(option.value)}
            />
            {option.label}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
