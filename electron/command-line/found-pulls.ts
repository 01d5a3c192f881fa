/** All that a search finds, newest first, with the verdicts judged before that it asks for. */
import { NEWEST_FIRST, type SearchQuery } from '../../core/contract/search-requests.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { asksForVerdicts } from './search-flags.ts';
import { InputError } from './verb.ts';

/** Sets judged at a time, so that no request lasts long. */
const SETS_AT_ONCE = 5;

export async function judgeAll(access: RecorderAccess): Promise<void> {
  for (let left = 1; left > 0;) {
    const done = await access.ask('archive.judge-sets', { limit: SETS_AT_ONCE });
    // A set that can't be judged now waits again; once round is enough.
    left = done.judged === 0 ? 0 : done.left;
  }
}

/** Throws an InputError where more is found than `most`; `are` says what is done with so many. */
export async function foundPulls(
  access: RecorderAccess,
  query: SearchQuery,
  { most, are }: { readonly most: number; readonly are: string },
): Promise<number[]> {
  if (asksForVerdicts(query)) await judgeAll(access);
  const { pullIds } = await access.ask('archive.found', { query, order: NEWEST_FIRST });
  if (pullIds.length > most)
    throw new InputError(
      'search-too-wide',
      `${String(pullIds.length)} pulls are found, and at most ${String(most)} are ${are}; narrow the search, by --from and --to for example.`,
      'search',
    );
  return [...pullIds];
}
