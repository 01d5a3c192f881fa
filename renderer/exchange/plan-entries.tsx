/** How a file of readings is read, as entries: layout, what each column is, and what the program asks. */
import { COLUMNS_TEXT_LENGTH_MAX } from '../../core/exchange/import/columns-text.ts';
import {
  IMPORT_DELIMITERS,
  IMPORT_QUANTITIES,
  TEXT_ENCODINGS,
} from '../../core/exchange/import/import-plan.ts';
import { FaultBlock, Field } from '../design/field.tsx';
import { SelectField } from '../stations/set/select-field.tsx';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import { type ImportPreview, type PlanDraft, unitsOf } from './plan-draft.ts';

/** Rows and lines of the file that are shown. */
const ROWS_SHOWN = 6;
const LINES_SHOWN = 8;
/** Columns that are shown, all that are kept among them: a page of a thousand with their choices is no preview. */
const COLUMNS_SHOWN = 200;

interface Shown {
  readonly draft: PlanDraft;
  readonly shown: ImportPreview;
}

export function PlanEntries({ draft }: { readonly draft: PlanDraft }) {
  const shown = draft.preview.value;
  return (
    <>
      <FaultBlock fault={draft.fault.value} />
      {shown === null && draft.fault.value === null ? null : <Layout draft={draft} shown={shown} />}
      {shown === null ? null : (
        <>
          <Columns draft={draft} shown={shown} />
          {shown.proposal.notes.map((note) => (
            <p key={note}>{told(note)}</p>
          ))}
          <Doubts shown={shown} />
        </>
      )}
    </>
  );
}

/** Also of a file that can't be read as it is found: what a person says may settle it. */
function Layout({ draft, shown }: { readonly draft: PlanDraft; readonly shown: ImportPreview | null }) {
  const text = words.value.exchange;
  const proposal = shown?.proposal ?? null;
  const plan = proposal?.plan ?? null;
  const now = draft.layout.value;
  const asFound = (found: string | undefined): string =>
    found === undefined ? text.asFound : `${text.asFound}: ${found}`;
  return (
    <details class="filters" open={plan === null}>
      <summary>{text.layout}</summary>
      <div class="filter-fields">
        <SelectField
          id="import-delimiter"
          label={text.delimiter}
          value={now.delimiter ?? ''}
          options={[
            { value: '', label: asFound(plan === null ? undefined : text.delimiters[plan.delimiter]) },
            ...IMPORT_DELIMITERS.map((value) => ({ value, label: text.delimiters[value] })),
          ]}
          onChoose={(value) =>
            draft.chooseLayout({ delimiter: IMPORT_DELIMITERS.find((one) => one === value) })
          }
        />
        <SelectField
          id="import-decimal"
          label={text.decimalSign}
          value={now.decimalSign ?? ''}
          options={[
            { value: '', label: asFound(plan?.decimalSign) },
            { value: '.', label: text.point },
            { value: ',', label: text.comma },
          ]}
          onChoose={(value) =>
            draft.chooseLayout({ decimalSign: value === '.' || value === ',' ? value : undefined })
          }
        />
        <SelectField
          id="import-encoding"
          label={text.encoding}
          value={now.encoding ?? ''}
          options={[
            { value: '', label: asFound(plan?.encoding) },
            ...TEXT_ENCODINGS.map((value) => ({ value, label: value })),
          ]}
          onChoose={(value) => draft.chooseLayout({ encoding: TEXT_ENCODINGS.find((one) => one === value) })}
        />
        <Field
          id="import-first-row"
          label={text.firstRow}
          hint={plan === null ? undefined : asFound(String(plan.firstRowLine))}
          number
          value={now.firstRowLine === undefined ? '' : String(now.firstRowLine)}
          lengthMax={6}
          onInput={(typed) =>
            draft.chooseLayout({ firstRowLine: /^[1-9]\d*$/.test(typed) ? Number(typed) : undefined })
          }
        />
      </div>
      {proposal === null || draft.columnsInWords.value !== '' ? (
        <Field
          id="import-columns-text"
          label={text.inWords}
          hint="time_s;force_kN;-;extension_mm"
          value={draft.columnsInWords.value}
          lengthMax={COLUMNS_TEXT_LENGTH_MAX}
          onInput={(typed) => draft.sayInWords(typed)}
        />
      ) : null}
      {proposal === null || proposal.evidence.length === 0 ? null : (
        <ul class="told">
          {proposal.evidence.map((sentence) => (
            <li key={sentence}>{told(sentence)}</li>
          ))}
        </ul>
      )}
      {proposal === null || proposal.preamble.length === 0 ? null : (
        <>
          <h3>{text.above}</h3>
          <pre class="preamble">
            {proposal.preamble
              .slice(0, LINES_SHOWN)
              .map(({ line, text: its }) => `${String(line)}  ${its}`)
              .join('\n')}
          </pre>
        </>
      )}
    </details>
  );
}

function Columns({ draft, shown }: Shown) {
  const text = words.value.exchange;
  const now = draft.columnsNow(shown);
  const its = shown.proposal.columns;
  const places = placesShown(now);
  return (
    <div class="import-columns" tabIndex={0} role="region" aria-label={text.columns}>
      <table>
        <thead>
          <tr>
            {places.map((i) => (
              // The place of a column is what it is known by.
              <th key={i} scope="col">
                <ColumnChoice draft={draft} shown={shown} at={i} />
                <UnitChoice draft={draft} shown={shown} at={i} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.proposal.sample.slice(0, ROWS_SHOWN).map((row, r) => (
            <tr key={r}>
              {places.map((i) => (
                <td key={i} class={now[i] === null ? 'number left-out' : 'number'}>
                  {row[i] ?? ''}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {places.length === its.length ? null : (
        <p>{text.columnsNotShown(String(its.length - places.length), String(its.length))}</p>
      )}
      {draft.columns.value === null ? null : <p class="pencil small">{text.asSaid}</p>}
    </div>
  );
}

interface ShownColumn extends Shown {
  readonly at: number;
}

function ColumnChoice({ draft, shown, at }: ShownColumn) {
  const text = words.value.exchange;
  const { name, unit: known } = shown.proposal.columns[at] ?? { name: '', unit: null };
  const said = draft.columnsNow(shown)[at] ?? null;
  const called = name === '' ? text.column(String(at + 1)) : name;
  return (
    <>
      <span class="column-name">{called}</span>
      <select
        class="entry"
        aria-label={text.isA(called)}
        onChange={(event) => {
          const quantity = IMPORT_QUANTITIES.find((one) => one === event.currentTarget.value);
          const fits = quantity === undefined ? [] : unitsOf(quantity);
          const unit = fits.find((one) => one === known) ?? fits[0];
          draft.sayColumn(
            shown,
            at,
            quantity === undefined || unit === undefined ? null : { quantity, unit },
          );
        }}
      >
        <option value="" selected={said === null}>
          {text.leftOut}
        </option>
        {IMPORT_QUANTITIES.map((quantity) => (
          <option key={quantity} value={quantity} selected={said?.quantity === quantity}>
            {text.quantities[quantity]}
          </option>
        ))}
      </select>
    </>
  );
}

/** The first ones, and whichever is kept further on, in their order. */
export function placesShown(now: readonly (object | null)[]): number[] {
  const kept = now.flatMap((said, at) => (said === null || at < COLUMNS_SHOWN ? [] : [at]));
  const room = Math.max(0, COLUMNS_SHOWN - kept.length);
  return [...now.keys()].filter((at) => at < room || (now[at] ?? null) !== null);
}

function UnitChoice({ draft, shown, at }: ShownColumn) {
  const said = draft.columnsNow(shown)[at] ?? null;
  const text = words.value.exchange;
  const name = shown.proposal.columns[at]?.name ?? '';
  if (said === null)
    return <span class="pencil small">{told(shown.proposal.columns[at]?.evidence ?? '')}</span>;
  return (
    <select
      class="entry"
      aria-label={text.unitOf(name === '' ? text.column(String(at + 1)) : name)}
      onChange={(event) => {
        const unit = unitsOf(said.quantity).find((one) => one === event.currentTarget.value);
        if (unit !== undefined) draft.sayColumn(shown, at, { ...said, unit });
      }}
    >
      {unitsOf(said.quantity).map((unit) => (
        <option key={unit} value={unit} selected={unit === said.unit}>
          {unit}
        </option>
      ))}
    </select>
  );
}

/** What the program asks, in the words in which it asks. */
function Doubts({ shown }: Pick<Shown, 'shown'>) {
  const { questions, readyWithoutAsking } = shown.proposal;
  if (readyWithoutAsking || questions.length === 0) return null;
  return (
    <div class="fault-block" role="alert">
      <span aria-hidden="true">▲</span>
      <div>
        <strong>{words.value.exchange.doubts}</strong>
        {questions.slice(0, LINES_SHOWN).map((question) => (
          <p key={question}>{told(question)}</p>
        ))}
      </div>
    </div>
  );
}
