/**
 * One dimension measured one or more times: the entries as typed, their mean and spread beside them. Enter in the
 * last entry opens another one, so that a calliper can send one value after the other.
 */
import { useId, useRef, useState } from 'preact/hooks';
import { MEASUREMENTS_PER_DIMENSION_MAX } from '../../../core/limits.ts';
import { QUANTITY_TEXT_LENGTH_MAX, parseQuantity } from '../../../core/quantity/parse-quantity.ts';
import type { Dimension } from '../../../core/quantity/units.ts';
import type { OutsideRange } from '../../../core/specimen/plausible-range.ts';
import { measuredDimension } from '../../../core/specimen/read-specimen.ts';
import { Button } from '../../design/button.tsx';
import { drawnAtOnce } from '../../design/drawn-at-once.ts';
import { FieldFault } from '../../design/field.tsx';
import { cue } from '../../design/sound-cue.ts';
import { SymbolText } from '../../design/symbol-text.tsx';
import { displayUnit } from '../../numbers/display-unit.ts';
import { quantityText } from '../../numbers/format.ts';
import { entryFault, withUnit } from '../../store/specimen-draft.ts';
import { language, units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import './measure-list.css';

export interface MeasureListProps {
  readonly label: string;
  readonly hint?: string;
  readonly dimension: Dimension;
  readonly entries: readonly string[];
  readonly onChange: (entries: readonly string[]) => void;
  /** Told at the save: none was measured, or the shape can't exist. */
  readonly fault?: string | undefined;
  readonly onTouch: () => void;
  /** Asks about what no such specimen has; without it nothing is asked. */
  readonly asking?: Asking | undefined;
}

/** A question about an entry, until a person has answered it. */
export interface Asking {
  /** Null where there is no question, or it was answered. */
  readonly about: (entry: string) => OutsideRange | null;
  readonly isRight: (asked: OutsideRange) => void;
}

export function MeasureList(props: MeasureListProps) {
  const { label, hint, dimension, entries, onChange, fault, onTouch, asking } = props;
  const text = words.value.specimen;
  const id = useId();
  const list = useRef<HTMLDivElement>(null);
  const [typingIn, setTypingIn] = useState<number | null>(null);

  const faults = entries.map((entry, index) => (index === typingIn ? null : entryFault(entry, dimension)));
  const [asked] = entries.flatMap((entry, index) =>
    asking === undefined || index === typingIn ? [] : (asking.about(entry) ?? []),
  );
  const firstFault = faults.find((f) => f !== null) ?? fault;

  const change = (index: number, value: string) => onChange(entries.map((e, i) => (i === index ? value : e)));
  const settle = (index: number, list: readonly string[] = entries): string[] =>
    list.map((e, i) => (i === index ? withUnit(e, dimension, units.value) : e));
  /** A calliper sends its next value at once: the field that takes it has to be there before. */
  const changeAndFocus = (changed: readonly string[], index: number) => {
    drawnAtOnce(() => onChange(changed));
    list.current?.querySelectorAll('input')[index]?.focus();
  };
  const add = (from: readonly string[]) => {
    if (from.length >= MEASUREMENTS_PER_DIMENSION_MAX) return;
    changeAndFocus([...from, ''], from.length);
  };

  return (
    <div class="measure" role="group" aria-labelledby={`${id}-label`}>
      <p class="field-label" id={`${id}-label`}>
        <SymbolText text={label} />
        {hint === undefined ? null : <span class="hint">{hint}</span>}
        <Mean entries={entries} dimension={dimension} />
      </p>
      <div class="measure-entries" ref={list}>
        {entries.map((entry, index) => (
          <div class="measure-entry" key={index}>
            <input
              type="text"
              class="entry number"
              value={entry}
              placeholder={index === 0 ? `0 ${displayUnit(dimension, units.value)}` : undefined}
              aria-label={text.measurement(label, String(index + 1))}
              aria-invalid={faults[index] !== null || (fault !== undefined && index === 0) ? true : undefined}
              aria-describedby={firstFault ? `${id}-fault` : undefined}
              maxLength={QUANTITY_TEXT_LENGTH_MAX}
              autocomplete="off"
              spellcheck={false}
              onInput={(event) => {
                // What is wrong with it is told again when it is left, not while it is being typed.
                setTypingIn(index);
                onTouch();
                change(index, event.currentTarget.value);
              }}
              onBlur={() => {
                setTypingIn(null);
                const settled = settle(index);
                if (settled[index] !== entry) onChange(settled);
                if ((asking?.about(settled[index] ?? '') ?? null) !== null) cue('asked');
              }}
              onKeyDown={(event) => {
                if (event.key !== 'Enter') return;
                event.preventDefault();
                const settled = settle(index);
                if ((asking?.about(settled[index] ?? '') ?? null) !== null) {
                  // The next thing that the calliper sends takes its place.
                  onChange(settled);
                  setTypingIn(null);
                  cue('asked');
                  event.currentTarget.select();
                } else if (entry.trim() === '' && index === entries.length - 1) {
                  focusNextSize(event.currentTarget);
                } else if (index < entries.length - 1) {
                  changeAndFocus(settled, index + 1);
                } else if (entry.trim() !== '') add(settled);
              }}
            />
            {entries.length > 1 ? (
              <button
                type="button"
                class="measure-remove"
                aria-label={text.removeMeasurement(label, String(index + 1))}
                onClick={() => onChange(entries.filter((_, i) => i !== index))}
              >
                ×
              </button>
            ) : null}
          </div>
        ))}
        <button
          type="button"
          class="measure-add"
          aria-label={text.addAgain(label)}
          title={text.addMeasurement}
          onClick={() => add(entries)}
        >
          +
        </button>
      </div>
      <FieldFault
        id={`${id}-fault`}
        sentence={asked === undefined ? firstFault : words.value.calliper.ask(asked.text, asked.usual)}
      />
      {asked === undefined ? null : (
        <Button kind="compact" onPress={() => asking?.isRight(asked)}>
          {words.value.calliper.right}
        </Button>
      )}
    </div>
  );
}

/** The first entry of the first size: where a calliper goes on once the name is written. */
export function focusFirstSize(): void {
  document.querySelector<HTMLInputElement>('.measure input')?.focus();
}

/** The first entry of the size after this one; Enter in an empty field says that there is nothing more to measure here. */
function focusNextSize(from: HTMLInputElement): void {
  const sizes = [...document.querySelectorAll('.measure')];
  const next = sizes[sizes.findIndex((one) => one.contains(from)) + 1];
  next?.querySelector('input')?.focus();
}

function Mean({
  entries,
  dimension,
}: {
  readonly entries: readonly string[];
  readonly dimension: Dimension;
}) {
  const text = words.value.specimen;
  const good = entries
    .map((entry) => parseQuantity(entry, { dimension, positive: true }))
    .flatMap((outcome) => (outcome.ok ? [outcome.quantity] : []));
  if (good.length === 0) return null;
  const measured = measuredDimension(good);
  const shown = (value: number) =>
    quantityText(
      value,
      dimension === 'mass' ? 'g' : dimension === 'density' ? 'g/mm³' : 'mm',
      units.value,
      language.value,
    );
  return (
    <span class="measure-mean">
      <span class="number">{shown(measured.mean)}</span>
      <span class="pencil">
        {good.length === 1
          ? text.once
          : `${text.mean} · ${text.spread} ${shown(measured.max - measured.min)}`}
      </span>
    </span>
  );
}
