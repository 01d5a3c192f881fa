/** A blank run that was pulled into the archive, named by the number of its pull: `--compliance 12`. */
import { existsSync } from 'node:fs';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { VerbArguments } from './arguments.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { InputError } from './verb.ts';

export type BlankRunOfPull = ReplyOf<'evaluation.blank-run'>;

/** A number is a pull; a file of that name is meant where there is one. */
export function namesBlankPull(text: string): boolean {
  return /^\d{1,15}$/.test(text) && !existsSync(text);
}

/** Null where a file is named, or nothing. Rejects with an InputError where that pull is no blank run. */
export async function blankRunAsked(
  given: VerbArguments,
  access: Pick<RecorderAccess, 'ask'>,
): Promise<BlankRunOfPull | null> {
  const text = given.text('compliance');
  if (text === undefined || !namesBlankPull(text)) return null;
  return access.ask('evaluation.blank-run', { pullId: Number(text) });
}

/** Said where there is no archive to look for the pull in. */
export function refuseBlankPull(text: string): void {
  if (namesBlankPull(text))
    throw new InputError(
      'blank-run-wrong',
      `--compliance ${text} names a pull, and pulls are in an archive: evaluate an archived one (archive evaluate), or give the curve of the blank run as a file.`,
      'compliance',
    );
}
