/** Elongation by intervals, for a specimen that broke near a mark: folded until it says something. */
import { QUANTITY_TEXT_LENGTH_MAX } from '../../../core/quantity/parse-quantity.ts';
import { SymbolText } from '../../design/symbol-text.tsx';
import { Field } from '../../design/field.tsx';
import { withUnit } from '../../store/specimen-draft.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { INTERVAL_ENTRIES, type IntervalEntry } from './after-fracture-draft.ts';

export interface IntervalEntriesProps {
  readonly values: Readonly<Record<IntervalEntry, string>>;
  readonly faultOf: (entry: IntervalEntry) => string | undefined;
  readonly onChange: (values: Readonly<Record<IntervalEntry, string>>) => void;
}

const COUNTS: ReadonlySet<IntervalEntry> = new Set(['intervals', 'between']);

export function IntervalEntries({ values, faultOf, onChange }: IntervalEntriesProps) {
  const text = words.value.evaluation.intervals;
  const said = INTERVAL_ENTRIES.some((entry) => values[entry] !== '');
  return (
    <details class="evaluation-group" open={said ? true : undefined}>
      <summary>
        <h3>{text.title}</h3>
      </summary>
      <p class="pencil">
        <SymbolText text={text.ask} />
      </p>
      <div class="note-fields">
        {INTERVAL_ENTRIES.map((entry) => (
          <Field
            key={entry}
            id={`interval-${entry}`}
            label={text.labels[entry]}
            hint={text.hints[entry]}
            number
            value={values[entry]}
            lengthMax={QUANTITY_TEXT_LENGTH_MAX}
            fault={faultOf(entry)}
            onInput={(value) => onChange({ ...values, [entry]: value })}
            onLeave={() => {
              if (!COUNTS.has(entry))
                onChange({ ...values, [entry]: withUnit(values[entry], 'length', units.value) });
            }}
          />
        ))}
      </div>
    </details>
  );
}
