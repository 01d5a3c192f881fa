/** A file of readings as a pull: looked at first, each column said, asked where the program doubts, and only then kept. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { KeptSpecimen } from '../../core/contract/specimen-requests.ts';
import { COLUMNS_TEXT_LENGTH_MAX } from '../../core/exchange/import/columns-text.ts';
import {
  IMPORT_DELIMITERS,
  IMPORT_QUANTITIES,
  TEXT_ENCODINGS,
} from '../../core/exchange/import/import-plan.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock, Field } from '../design/field.tsx';
import { fixed, momentText } from '../numbers/format.ts';
import { SelectField } from '../stations/set/select-field.tsx';
import { archivePullId, goTo } from '../store/place.ts';
import { request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { closeExchange } from './exchange-view.ts';
import {
  type ImportPreview,
  chooseFile,
  chooseLayout,
  columns,
  columnsInWords,
  columnsNow,
  file,
  imported,
  importNow,
  importing,
  isReading,
  layout,
  preview,
  previewing,
  sayColumn,
  sayInWords,
  specimenId,
  unitsOf,
} from './import-draft.ts';
import { UnderWay } from './under-way.tsx';

/** Rows and lines of the file that are shown. */
const ROWS_SHOWN = 6;
const LINES_SHOWN = 8;
/** Specimens that are offered: the newest ones. */
const SPECIMENS_MAX = 200;

export function ImportSheet() {
  const text = words.value.exchange;
  const shown = preview.value;
  return (
    <div class="block">
      <div class="actions">
        <Button
          id="choose-curve"
          kind={file.value === null ? 'call' : 'plain'}
          onPress={() => void chooseFile()}
        >
          {text.chooseFile}
        </Button>
        {file.value === null ? null : (
          <span>
            {file.value.name}
            {shown === null
              ? ''
              : ` · ${text.bytes(fixed(Math.ceil(shown.byteCount / 1024), 0, language.value))}`}
          </span>
        )}
      </div>
      <FaultBlock fault={previewing.fault.value} />
      {file.value === null || (shown === null && previewing.fault.value === null) ? null : (
        <Layout shown={shown} />
      )}
      {shown === null ? null : (
        <>
          <Columns shown={shown} />
          <Doubts shown={shown} />
          <Keeping shown={shown} />
        </>
      )}
    </div>
  );
}

/** Also of a file that can't be read as it is found: what a person says may settle it. */
function Layout({ shown }: { readonly shown: ImportPreview | null }) {
  const text = words.value.exchange;
  const proposal = shown?.proposal ?? null;
  const plan = proposal?.plan ?? null;
  const now = layout.value;
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
          onChoose={(value) => chooseLayout({ delimiter: IMPORT_DELIMITERS.find((one) => one === value) })}
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
            chooseLayout({ decimalSign: value === '.' || value === ',' ? value : undefined })
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
          onChoose={(value) => chooseLayout({ encoding: TEXT_ENCODINGS.find((one) => one === value) })}
        />
        <Field
          id="import-first-row"
          label={text.firstRow}
          hint={plan === null ? undefined : asFound(String(plan.firstRowLine))}
          number
          value={now.firstRowLine === undefined ? '' : String(now.firstRowLine)}
          lengthMax={6}
          onInput={(typed) =>
            chooseLayout({ firstRowLine: /^[1-9]\d*$/.test(typed) ? Number(typed) : undefined })
          }
        />
      </div>
      {proposal === null || columnsInWords.value !== '' ? (
        <Field
          id="import-columns-text"
          label={text.inWords}
          hint="time_s;force_kN;-;extension_mm"
          value={columnsInWords.value}
          lengthMax={COLUMNS_TEXT_LENGTH_MAX}
          onInput={sayInWords}
        />
      ) : null}
      {proposal === null || proposal.evidence.length === 0 ? null : (
        <ul class="told">
          {proposal.evidence.map((sentence) => (
            <li key={sentence}>{sentence}</li>
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

function Columns({ shown }: { readonly shown: ImportPreview }) {
  const text = words.value.exchange;
  const now = columnsNow(shown);
  const its = shown.proposal.columns;
  return (
    <div class="import-columns" tabIndex={0} role="region" aria-label={text.columns}>
      <table>
        <thead>
          <tr>
            {its.map((column, i) => (
              // The place of a column is what it is known by.
              <th key={i} scope="col">
                <span class="column-name">
                  {column.name === '' ? text.column(String(i + 1)) : column.name}
                </span>
                <select
                  class="entry"
                  aria-label={text.isA(column.name === '' ? text.column(String(i + 1)) : column.name)}
                  onChange={(event) => {
                    const quantity = IMPORT_QUANTITIES.find((one) => one === event.currentTarget.value);
                    const known = column.unit;
                    const fits = quantity === undefined ? [] : unitsOf(quantity);
                    const unit = fits.find((one) => one === known) ?? fits[0];
                    sayColumn(
                      shown,
                      i,
                      quantity === undefined || unit === undefined ? null : { quantity, unit },
                    );
                  }}
                >
                  <option value="" selected={now[i] === null}>
                    {text.leftOut}
                  </option>
                  {IMPORT_QUANTITIES.map((quantity) => (
                    <option key={quantity} value={quantity} selected={now[i]?.quantity === quantity}>
                      {text.quantities[quantity]}
                    </option>
                  ))}
                </select>
                <UnitChoice shown={shown} at={i} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.proposal.sample.slice(0, ROWS_SHOWN).map((row, r) => (
            <tr key={r}>
              {its.map((_, i) => (
                <td key={i} class={now[i] === null ? 'number left-out' : 'number'}>
                  {row[i] ?? ''}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {columns.value === null ? null : <p class="pencil small">{text.asSaid}</p>}
    </div>
  );
}

function UnitChoice({ shown, at }: { readonly shown: ImportPreview; readonly at: number }) {
  const said = columnsNow(shown)[at] ?? null;
  const text = words.value.exchange;
  const name = shown.proposal.columns[at]?.name ?? '';
  if (said === null) return <span class="pencil small">{shown.proposal.columns[at]?.evidence ?? ''}</span>;
  return (
    <select
      class="entry"
      aria-label={text.unitOf(name === '' ? text.column(String(at + 1)) : name)}
      onChange={(event) => {
        const unit = unitsOf(said.quantity).find((one) => one === event.currentTarget.value);
        if (unit !== undefined) sayColumn(shown, at, { ...said, unit });
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
function Doubts({ shown }: { readonly shown: ImportPreview }) {
  const { questions, readyWithoutAsking } = shown.proposal;
  if (readyWithoutAsking || questions.length === 0) return null;
  return (
    <div class="fault-block" role="alert">
      <span aria-hidden="true">▲</span>
      <div>
        <strong>{words.value.exchange.doubts}</strong>
        {questions.slice(0, LINES_SHOWN).map((question) => (
          <p key={question}>{question}</p>
        ))}
      </div>
    </div>
  );
}

function Keeping({ shown }: { readonly shown: ImportPreview }) {
  const text = words.value.exchange;
  const operator = useSignal('');
  const specimens = useSignal<readonly KeptSpecimen[]>([]);
  useEffect(() => {
    void request('specimen.list', { limit: SPECIMENS_MAX }).then((answer) => {
      if (answer.ok) specimens.value = answer.value.items;
    });
  }, []);
  const done = imported.value;
  const notNow =
    !shown.proposal.readyWithoutAsking && columns.value === null
      ? text.sayFirst
      : shown.proposal.plan === null
        ? text.sayFirst
        : specimenId.value === null
          ? text.chooseSpecimenFirst
          : done === null
            ? undefined
            : text.isImported;
  return (
    <>
      <div class="filter-fields">
        <SelectField
          id="import-specimen"
          label={text.whichSpecimen}
          value={specimenId.value === null ? '' : String(specimenId.value)}
          options={[
            { value: '', label: words.value.common.none },
            ...specimens.value.map((kept) => ({
              value: String(kept.specimenId),
              label: `${kept.specimen.id} · ${momentText(kept.savedWallMs)}`,
            })),
          ]}
          onChoose={(value) => (specimenId.value = value === '' ? null : Number(value))}
        />
        <Field
          id="import-operator"
          label={words.value.archive.operator}
          value={operator.value}
          lengthMax={NAME_LENGTH_MAX}
          onInput={(value) => (operator.value = value)}
        />
        <Button kind="compact" onPress={() => goTo('specimen')}>
          {text.measureFirst}
        </Button>
      </div>
      <div class="actions">
        <Button kind="call" id="import-now" notNow={notNow} onPress={() => void importNow(operator.value)}>
          {text.importNow}
        </Button>
      </div>
      <UnderWay busy={isReading.value} what={text.importing} />
      <FaultBlock fault={importing.fault.value} />
      {done === null ? null : <Done />}
    </>
  );
}

function Done() {
  const text = words.value.exchange;
  const done = imported.value;
  if (done === null) return null;
  const number = (n: number): string => fixed(n, 0, language.value);
  return (
    <div class="block" role="status">
      <p>
        <strong>{text.imported(String(done.pullId), number(done.rows), number(done.misfits))}</strong>
      </p>
      {done.notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      <p class="pencil small">SHA-256 {done.sha256}</p>
      <div class="actions">
        <Button
          id="open-imported"
          onPress={() => {
            closeExchange();
            archivePullId.value = done.pullId;
          }}
        >
          {text.openImported}
        </Button>
      </div>
    </div>
  );
}
