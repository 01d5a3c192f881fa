/** A specimen is pulled once; a name that has a pull already may be a slip, and is told. It is never refused: names come again. */
import type { RecorderAccess } from './recorder-access.ts';

/** Pulls looked at, newest first, whose specimen or operator has the name in theirs. */
const PULLS_AT_ONCE = 200;
const PULLS_MAX = 1_000;

/** Asked before the new pull is begun: one sentence, which is also said, or none. */
export async function tellEarlierPull(
  access: RecorderAccess,
  specimenName: string,
  say: (line: string) => void,
): Promise<string[]> {
  const earlier = await newestOf(access, specimenName);
  if (earlier === null) return [];
  const note = `${specimenName} has a pull already: number ${String(earlier.pullId)}${earlier.isVoid ? ' (void)' : ''}`;
  say(`${note}.`);
  return [note];
}

async function newestOf(
  access: RecorderAccess,
  specimenName: string,
): Promise<{ readonly pullId: number; readonly isVoid: boolean } | null> {
  let cursor: number | null = null;
  let looked = 0;
  do {
    const at: { readonly cursor?: number } = cursor === null ? {} : { cursor };
    const listed = await access.ask('pull.list', { limit: PULLS_AT_ONCE, search: specimenName, ...at });
    const found = listed.items.find((line) => line.specimenName === specimenName);
    if (found !== undefined) return { pullId: found.pullId, isVoid: found.voided !== null };
    looked += listed.items.length;
    cursor = listed.nextCursor;
  } while (cursor !== null && looked < PULLS_MAX);
  return null;
}
