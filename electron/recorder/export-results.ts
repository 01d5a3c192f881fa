/** All that a search finds as a table of results, a row a pull: evaluated one by one, written to a new file. */
import { basename } from 'node:path';
import { PAPER_ROWS_MAX } from '../../core/exchange/export/asked-columns.ts';
import { RESULTS_PULLS_MAX } from '../../core/contract/exchange-requests.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { type FoundPull, HITS_PER_PAGE } from '../../core/contract/search-requests.ts';
import { markedRows } from '../../core/exchange/export/marked-rows.ts';
import { type TabledPull, tabledPull } from '../../core/exchange/export/results-table.ts';
import { paperTableOf, tableOf, writeResults } from '../exports/results-file.ts';
import { judgedLines } from './find-pulls.ts';
import { evaluatePull } from './kept-evaluations.ts';
import type { WorkWatch } from './long-work.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** Between two words on how far it is. */
const TOLD_EVERY = 5;

/** Throws where the file is there already, or more is found than a table is worked out for. */
export async function exportResults(
  recorder: Recorder,
  { query, order, to, form, columns }: RequestOf<'archive.export-results'>,
  watch: WorkWatch,
): Promise<ReplyOf<'archive.export-results'>> {
  const table = tableOf(
    await tabledPulls(recorder, { query, order, most: RESULTS_PULLS_MAX }, watch),
    columns,
  );
  return writeResults(table, { path: to, form });
}

/** The same for paper. Throws where that is more than is printed. */
export async function resultsForPaper(
  recorder: Recorder,
  { query, order, columns }: RequestOf<'archive.results-table'>,
  watch: WorkWatch,
): Promise<ReplyOf<'archive.results-table'>> {
  const pulls = await tabledPulls(recorder, { query, order, most: PAPER_ROWS_MAX }, watch);
  const { titles, rows, blank } = paperTableOf(pulls, columns);
  return {
    titles: [...titles],
    rows: rows.map((row) => [...row]),
    blank: [...blank],
    marked: markedRows(pulls),
    archive: basename(recorder.options.archivePath),
  };
}

/** All that is found, evaluated one by one. Throws where that is more than a table is worked out for. */
export async function tabledPulls(
  recorder: Recorder,
  {
    query,
    order,
    most,
  }: Pick<RequestOf<'archive.export-results'>, 'query' | 'order'> & { readonly most: number },
  { signal, tell }: WorkWatch,
): Promise<TabledPull[]> {
  const { pullIds } = await recorder.archive.call('foundPullIds', { query, order });
  if (pullIds.length > most)
    throw new RequestRefused(
      'search-too-wide',
      `${String(pullIds.length)} pulls are found, and a table is worked out for at most ${String(most)}; narrow the search, by its days for example.`,
      'query',
    );
  const pulls: TabledPull[] = [];
  for (let at = 0; at < pullIds.length; at += HITS_PER_PAGE) {
    const page = { pullIds: [...pullIds.slice(at, at + HITS_PER_PAGE)], judge: HITS_PER_PAGE };
    for (const line of await judgedLines(recorder, page, () => signal.aborted)) {
      if (recorder.isRecording)
        throw new RequestRefused(
          'pull-open',
          'A pull is being recorded, so the table was not worked out further and no file was written; close the record first.',
        );
      if (signal.aborted) throw new RequestRefused('stopped', 'It was stopped; no file was written.');
      if (line.ended) pulls.push(await tabled(recorder, line));
      if (pulls.length % TOLD_EVERY === 0) tell({ work: 'results', done: pulls.length, of: pullIds.length });
    }
  }
  return pulls;
}

async function tabled(recorder: Recorder, line: FoundPull): Promise<TabledPull> {
  const { pullId } = line;
  const pull = await recorder.archive.call('getPull', pullId);
  const specimen = await recorder.archive.call('specimenOfPull', pullId);
  const evaluation = await evaluatePull(recorder, { pullId });
  return tabledPull(line, {
    utcOffsetMinutes: pull.startedUtcOffsetMinutes,
    notes: specimen.specimen.notes ?? null,
    gapCount: pull.gapCount,
    results: evaluation.results,
    withheld: evaluation.withheld,
  });
}
