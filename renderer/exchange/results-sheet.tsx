/** Everything that the search finds as a table of results: as a spreadsheet of the place opens it rightly, or on paper. */
import { computed, signal, useSignal } from '@preact/signals';
import { z } from 'zod';
import { RESULTS_FORMS, RESULTS_PULLS_MAX } from '../../core/contract/exchange-requests.ts';
import type { SearchQuery } from '../../core/contract/search-requests.ts';
import { type AskedColumn, PAPER_ROWS_MAX } from '../../core/exchange/export/asked-columns.ts';
import { found, draft, order } from '../archive/found-pulls.ts';
import { readSearch } from '../archive/search-draft.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { fixed } from '../numbers/format.ts';
import {
  choosePaperLanguage,
  chosenLanguages,
  paper,
  paperLanguage,
} from '../stations/certificate/certificate-choice.ts';
import { LanguageOfPaper } from '../stations/certificate/language-of-paper.tsx';
import { writingStep } from '../stations/certificate/writing-progress.ts';
import { WordSelect } from '../stations/set/word-select.tsx';
import { errand } from '../store/errand.ts';
import { remember, remembered } from '../store/remembered.ts';
import { exchangeProgress, request } from '../store/session-store.ts';
import { useSteps } from '../store/taken-back.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { chosenFile } from './chosen-file.ts';
import { columnsOf, paperColumns, tableColumns } from './table-choice.ts';
import { TableColumns } from './table-columns.tsx';
import { UnderWay } from './under-way.tsx';

const FORM_KEY = 'gaugemark.results-form';
const FORMS = [...RESULTS_FORMS, 'pdf'] as const;
type Form = (typeof FORMS)[number];
const writing = errand();
const form = signal<Form>(remembered(FORM_KEY, z.enum(FORMS), 'xlsx'));
remember(FORM_KEY, () => form.value);

interface Written {
  readonly name: string;
  readonly rows: number;
  /** Of paper. */
  readonly pages?: number;
  readonly blank: readonly string[];
}

interface ToWrite {
  readonly query: SearchQuery;
  /** Left out: the usual ones. */
  readonly columns?: AskedColumn[];
  readonly begin: () => void;
}

/** Null where the person thought better of it, or it went wrong. */
async function onPaper({ query, columns, begin }: ToWrite): Promise<Written | null> {
  begin();
  const done = await writing.run(() =>
    request('window.write-results', {
      query,
      order: order.value,
      paper: paper.value,
      language: paperLanguage.value,
      ...(columns === undefined ? {} : { columns }),
    }),
  );
  const written = done?.written ?? null;
  return written === null ? null : { ...written, name: written.path };
}

async function asTable(
  as: Exclude<Form, 'pdf'>,
  { query, columns, begin }: ToWrite,
): Promise<Written | null> {
  const file = await chosenFile(writing, as === 'xlsx' ? 'results-xlsx' : 'results-csv');
  if (file === null) return null;
  begin();
  const done = await writing.run(() =>
    request('archive.export-results', {
      query,
      order: order.value,
      to: file.sign,
      form: as,
      ...(columns === undefined ? {} : { columns }),
    }),
  );
  return done === null ? null : { ...done, name: file.name };
}

/** What main does once the table is worked out; null before. */
const inPrint = computed(() => {
  const now = writingStep.value;
  if (now === null) return null;
  const { steps, printed } = words.value.writing;
  return now.step === 'saving' ? `${steps.saving} ${printed(String(now.of))}` : steps[now.step];
});

export function ResultsSheet() {
  const text = words.value.exchange;
  const isWriting = useSignal(false);
  useSteps({
    resultsForm: form,
    resultsColumns: tableColumns.now,
    paperColumns: paperColumns.now,
    paperLanguage: chosenLanguages,
  });
  const count = found.value?.length ?? 0;
  const read = readSearch(draft.value, units.value);
  const number = (n: number): string => fixed(n, 0, language.value);
  const chosen = form.value === 'pdf' ? paperColumns : tableColumns;
  const most = form.value === 'pdf' ? PAPER_ROWS_MAX : RESULTS_PULLS_MAX;
  const columns = columnsOf(chosen.now.value);
  const write = async (): Promise<void> => {
    if (!read.ok || columns === null) return;
    const asked: ToWrite = {
      query: read.query,
      ...(chosen.isUsual ? {} : { columns }),
      begin: () => {
        exchangeProgress.value = null;
        writingStep.value = null;
        isWriting.value = true;
      },
    };
    const done = await (form.value === 'pdf' ? onPaper(asked) : asTable(form.value, asked));
    isWriting.value = false;
    if (done === null) return;
    const written =
      done.pages === undefined
        ? text.resultsWritten(number(done.rows), done.name)
        : text.resultsPrinted(number(done.rows), number(done.pages), done.name);
    say(done.blank.length === 0 ? written : `${written} ${text.blankColumns(done.blank.join(', '))}`);
  };
  return (
    <div class="block">
      <p>{text.foundNow(number(count))}</p>
      <WordSelect
        id="results-form"
        label={text.form}
        value={form.value}
        choices={FORMS}
        names={text.forms}
        onChoose={(value) => (form.value = value)}
      />
      {form.value === 'pdf' ? (
        <LanguageOfPaper value={paperLanguage.value} onChoose={choosePaperLanguage} />
      ) : null}
      <TableColumns chosen={chosen} />
      <div class="actions">
        <Button
          kind="call"
          id="write-results"
          notNow={
            !read.ok
              ? words.value.find.unread
              : count === 0
                ? words.value.find.nothing
                : count > most
                  ? text.tooMany(number(most))
                  : columns === null
                    ? text.noColumns
                    : undefined
          }
          onPress={() => void write()}
        >
          {text.writeResults}
        </Button>
      </div>
      <UnderWay
        busy={isWriting.value}
        what={text.writingResults}
        elsewhere={inPrint.value}
        onStop={() => void request('window.stop-writing', {})}
      />
      <FaultBlock fault={writing.fault.value} />
    </div>
  );
}
