/** One way to ask: a bridge that itself fails answers like any other fault. */
import type { Bridge, PageReplyOf, PageRequestName, PageRequestOf } from '../../core/contract/bridge.ts';
import type { Answer } from '../../core/contract/index.ts';

/** Cause text of a broken bridge shown to people; the rest of it is for nobody. */
const CAUSE_LENGTH_MAX = 200;

export async function ask<N extends PageRequestName>(
  bridge: Pick<Bridge, 'request'>,
  name: N,
  payload: PageRequestOf<N>,
): Promise<Answer<PageReplyOf<N>>> {
  try {
    return await bridge.request(name, payload);
  } catch (error) {
    const cause = (error instanceof Error ? error.message : String(error)).slice(0, CAUSE_LENGTH_MAX);
    return {
      ok: false,
      fault: {
        code: 'no-answer',
        sentence: `The recorder did not answer "${name}" (${cause}). What is recorded is safe; wait a moment and try again.`,
      },
    };
  }
}
