/** All that a search finds as a table of results, a row a pull: evaluated one by one, written to a new file. */
import { RESULTS_PULLS_MAX } from '../../core/contract/exchange-requests.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { type FoundPull, HITS_PER_PAGE } from '../../core/contract/search-requests.ts';
import {
  type TabledPull,
  resultsTable,
  tabledPull,
  usualColumns,
} from '../../core/exchange/export/results-table.ts';
import { writeResults } from '../exports/results-file.ts';
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
  { query, order, to, form }: RequestOf<'archive.export-results'>,
  { signal, tell }: WorkWatch,
): Promise<ReplyOf<'archive.export-results'>> {
  const { pullIds } = await recorder.archive.call('foundPullIds', { query, order });
  if (pullIds.length > RESULTS_PULLS_MAX)
    throw new RequestRefused(
      'search-too-wide',
      `${String(pullIds.length)} pulls are found, and a table is worked out for at most ${String(RESULTS_PULLS_MAX)}; narrow the search, by its days for example.`,
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
  return writeResults(resultsTable(pulls, usualColumns(pulls)), { path: to, form });
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
