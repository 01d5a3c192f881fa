/** A request that failed because of a bug; what failed for a reason is told by request-refused.ts. */
import type { Fault } from '../../core/contract/message.ts';

const WORDS_MAX = 300;

export function programFault(name: string, error: unknown): Fault {
  const what = error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
  return {
    code: 'program-fault',
    sentence: `"${name}" failed because of a fault in the program (${what.slice(0, WORDS_MAX)}). What is recorded is safe.`,
  };
}
