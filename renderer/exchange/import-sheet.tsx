/** A file of readings as a pull: looked at first, each column said, asked where the program doubts, and only then kept. */
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { statedText } from '../../core/pull/stated-day.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock, Field } from '../design/field.tsx';
import { sayAloud } from '../design/said.tsx';
import { whenThere } from '../design/when-there.ts';
import { fixed } from '../numbers/format.ts';
import { archivePullId, goTo } from '../store/place.ts';
import { useSteps } from '../store/taken-back.ts';
import { language } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import { closeExchange } from './exchange-view.ts';
import {
  type ImportAnswer,
  chooseFile,
  choosing,
  file,
  imported,
  importNow,
  importing,
  isReading,
  operator,
  planned,
  pulledOn,
  specimenId,
} from './import-draft.ts';
import { DayField } from './day-field.tsx';
import { PlanEntries } from './plan-entries.tsx';
import { SpecimenChoice } from './specimen-choice.tsx';
import { statedOf } from './stated-of.ts';
import { UnderWay } from './under-way.tsx';

export function ImportSheet() {
  const text = words.value.exchange;
  const shown = planned.preview.value;
  const { layout, columnsInWords, columns } = planned;
  useSteps({ importLayout: layout, importInWords: columnsInWords, importColumns: columns }, undefined, {
    onTaken: () => void planned.look(),
  });
  useSteps({ importSpecimen: specimenId, pulledOn });
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
      <FaultBlock fault={choosing.fault.value} />
      {file.value === null ? null : <PlanEntries draft={planned} />}
      {shown === null ? null : <Keeping />}
    </div>
  );
}

function Keeping() {
  const text = words.value.exchange;
  const done = imported.value;
  const notNow =
    planned.plan.value === null
      ? text.sayFirst
      : specimenId.value === null
        ? text.chooseSpecimenFirst
        : pulledOn.value.trim() !== '' && statedOf(pulledOn.value).pulledOn === null
          ? text.sayDayFirst
          : done === null
            ? undefined
            : text.isImported;
  return (
    <>
      <div class="filter-fields">
        <SpecimenChoice
          id="import-specimen"
          chosen={specimenId.value}
          onChoose={(chosen) => (specimenId.value = chosen)}
        />
        <Field
          id="import-operator"
          label={words.value.archive.operator}
          value={operator.value}
          lengthMax={NAME_LENGTH_MAX}
          onInput={(value) => (operator.value = value)}
        />
        <DayField
          id="import-pulled-on"
          value={pulledOn.value}
          onInput={(value) => (pulledOn.value = value)}
        />
        <Button kind="compact" onPress={() => goTo('specimen')}>
          {text.measureFirst}
        </Button>
      </div>
      <DatesInFile />
      <p class="pencil small">{text.dayOfImport}</p>
      <div class="actions">
        <Button
          kind={done === null ? 'call' : 'plain'}
          id={IMPORT_NOW}
          notNow={notNow}
          onPress={() => void importNow().then(showOutcome)}
        >
          {text.importNow}
        </Button>
      </div>
      <UnderWay busy={isReading.value} what={text.importing} />
      <FaultBlock fault={importing.fault.value} />
      {done === null ? null : <Done />}
    </>
  );
}

/** What stands in the file as a date: proposed, taken only by a person. */
function DatesInFile() {
  const text = words.value.exchange;
  const dates = planned.preview.value?.proposal.dates ?? [];
  if (dates.length === 0) return null;
  return (
    <ul class="dates-in-file" aria-label={text.datesInFile}>
      {dates.map(({ line, text: shown, days }) => (
        <li key={days.join()}>
          <span class="small">
            {text.lineSays(String(line))} <bdi>{shown}</bdi>
          </span>
          {days.map((day) => (
            <Button key={day} kind="compact" onPress={() => (pulledOn.value = statedText(day))}>
              {text.takeDay(statedText(day))}
            </Button>
          ))}
        </li>
      ))}
    </ul>
  );
}

const IMPORT_NOW = 'import-now';
const OPEN_IMPORTED = 'open-imported';

/** It comes below all that was said of the file: whoever waited for it is taken there, and hears what became of it. */
function showOutcome(): void {
  const done = imported.value;
  if (done === null) return;
  sayAloud(keptAs(done));
  whenThere(
    () => document.getElementById(OPEN_IMPORTED),
    () => imported.value === done,
    (open) => {
      open?.scrollIntoView({ block: 'nearest' });
      const now = document.activeElement;
      // Somebody may have gone on meanwhile, to another field.
      if (now === document.body || now?.id === IMPORT_NOW) open?.focus();
    },
  );
}

function keptAs({ pullId, rows, misfits }: ImportAnswer): string {
  const number = (n: number): string => fixed(n, 0, language.value);
  return words.value.exchange.imported(String(pullId), number(rows), number(misfits));
}

function Done() {
  const text = words.value.exchange;
  const done = imported.value;
  if (done === null) return null;
  return (
    <div class="block">
      <p>
        <strong>{keptAs(done)}</strong>
      </p>
      {done.notes.map((note) => (
        <p key={note}>{told(note)}</p>
      ))}
      <p class="pencil small">SHA-256 {done.sha256}</p>
      <div class="actions">
        <Button
          kind="call"
          id={OPEN_IMPORTED}
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
