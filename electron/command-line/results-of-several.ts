/** Results of what is found in several archives as one table: each pull with the file that it is in. */
import { basename } from 'node:path';
import { RESULTS_PULLS_MAX } from '../../core/contract/exchange-requests.ts';
import type { FoundPull, SearchOrder, SearchQuery } from '../../core/contract/search-requests.ts';
import { type TabledPull, tabledPull } from '../../core/exchange/export/results-table.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { InputError } from './verb.ts';

/** Pulls of one answer, whose sets are judged for it: so that none takes long. */
const PULLS_AT_ONCE = 5;

export interface TabledFrom {
  readonly path: string;
  readonly query: SearchQuery;
  readonly order: SearchOrder;
  /** Pulls that the table has already. */
  readonly before: number;
  /** Each pull then names its archive. */
  readonly isOneOfSeveral?: boolean;
  /** Pulls of one table, and what is done with so many. */
  readonly most?: number;
  readonly are?: string;
}

export interface TabledLine {
  readonly line: FoundPull;
  readonly pull: TabledPull;
}

/** Records that are still open are left out. Throws an InputError where the table would become too long. */
export async function tabledPulls(
  { ask }: Pick<RecorderAccess, 'ask'>,
  {
    path,
    query,
    order,
    before,
    isOneOfSeveral = true,
    most = RESULTS_PULLS_MAX,
    are = 'worked out for a table',
  }: TabledFrom,
): Promise<TabledLine[]> {
  const { pullIds } = await ask('archive.found', { query, order });
  if (before + pullIds.length > most)
    throw new InputError(
      'search-too-wide',
      `${String(before + pullIds.length)} pulls are found, and at most ${String(most)} are ${are}; narrow the search, by --from and --to for example.`,
      'search',
    );
  const pulls: TabledLine[] = [];
  for (let at = 0; at < pullIds.length; at += PULLS_AT_ONCE) {
    const { items } = await ask('archive.lines', {
      pullIds: [...pullIds.slice(at, at + PULLS_AT_ONCE)],
      judge: PULLS_AT_ONCE,
    });
    for (const line of items) {
      if (!line.ended) continue;
      const { pullId } = line;
      const pull = await ask('pull.get', { pullId });
      const { results, withheld } = await ask('pull.evaluate', { pullId });
      const tabled = tabledPull(line, {
        ...(isOneOfSeveral ? { archive: basename(path) } : {}),
        utcOffsetMinutes: pull.startedUtcOffsetMinutes,
        notes: pull.specimen.specimen.notes ?? null,
        gapCount: pull.gapCount,
        results,
        withheld,
      });
      pulls.push({ line, pull: tabled });
    }
  }
  return pulls;
}
