/** What the page is told where a file that somebody chose could not be written. */
import { basename } from 'node:path';
import type { Fault } from '../../core/contract/message.ts';
import { FileNotWritten } from '../exports/whole-bytes.ts';

/** Of the cause, which may be a sentence of the system. */
const CAUSE_LENGTH_MAX = 300;

export function notWritten(error: unknown, path: string, code: string): Fault {
  if (error instanceof FileNotWritten)
    return {
      code,
      sentence: error.message,
      ...(error.detail === undefined ? {} : { detail: error.detail }),
    };
  const cause = (error instanceof Error ? error.message : String(error)).slice(0, CAUSE_LENGTH_MAX);
  return {
    code,
    sentence: `"${basename(path)}" could not be written (${cause}). What was there before is unharmed; choose another place and save it again.`,
  };
}
