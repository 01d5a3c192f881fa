/** Everything that the search finds as a table of results, in the form that a spreadsheet of the place opens rightly. */
import { signal, useSignal } from '@preact/signals';
import { z } from 'zod';
import { RESULTS_FORMS, RESULTS_PULLS_MAX, type ResultsForm } from '../../core/contract/exchange-requests.ts';
import { found, draft, order } from '../archive/found-pulls.ts';
import { readSearch } from '../archive/search-draft.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { fixed } from '../numbers/format.ts';
import { WordSelect } from '../stations/set/word-select.tsx';
import { errand } from '../store/errand.ts';
import { remember, remembered } from '../store/remembered.ts';
import { exchangeProgress, request } from '../store/session-store.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { chosenFile } from './chosen-file.ts';
import { UnderWay } from './under-way.tsx';

const FORM_KEY = 'gaugemark.results-form';
const writing = errand();
const form = signal<ResultsForm>(remembered(FORM_KEY, z.enum(RESULTS_FORMS), 'xlsx'));
remember(FORM_KEY, () => form.value);

export function ResultsSheet() {
  const text = words.value.exchange;
  const isWriting = useSignal(false);
  const count = found.value?.length ?? 0;
  const read = readSearch(draft.value, units.value);
  const number = (n: number): string => fixed(n, 0, language.value);
  const write = async (): Promise<void> => {
    if (!read.ok) return;
    const what = form.value === 'xlsx' ? 'results-xlsx' : 'results-csv';
    const file = await chosenFile(writing, what);
    if (file === null) return;
    exchangeProgress.value = null;
    isWriting.value = true;
    const done = await writing.run(() =>
      request('archive.export-results', {
        query: read.query,
        order: order.value,
        to: file.sign,
        form: form.value,
      }),
    );
    isWriting.value = false;
    if (done !== null) say(text.resultsWritten(number(done.rows), file.name));
  };
  return (
    <div class="block">
      <p>{text.foundNow(number(count))}</p>
      <WordSelect
        id="results-form"
        label={text.form}
        value={form.value}
        choices={RESULTS_FORMS}
        names={text.forms}
        onChoose={(value) => (form.value = value)}
      />
      <div class="actions">
        <Button
          kind="call"
          id="write-results"
          notNow={
            !read.ok || count === 0
              ? words.value.find.nothing
              : count > RESULTS_PULLS_MAX
                ? text.tooMany(number(RESULTS_PULLS_MAX))
                : undefined
          }
          onPress={() => void write()}
        >
          {text.writeResults}
        </Button>
      </div>
      <UnderWay busy={isWriting.value} what={text.writingResults} />
      <FaultBlock fault={writing.fault.value} />
    </div>
  );
}
