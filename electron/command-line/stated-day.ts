/** `gaugemark archive state-day --pull ID --pulled-on DAY`: when an imported pull was made, stated or corrected. */
import { pulledOnText, statedAsTyped, statedDay } from '../../core/pull/stated-day.ts';
import { type VerbArguments, takeArguments } from './arguments.ts';
import { pullNumber } from './pull-number.ts';
import { existingArchive, recorderAccess } from './recorder-access.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const STATE_DAY_USAGE =
  'gaugemark archive state-day --pull ID --archive FILE --pulled-on DAY[THH:MM] [--reason TEXT] [--operator NAME] [--json]';

export const STATE_DAY_HELP = `  state-day  the day on which an imported pull was made, by the clock of the place, where it was not stated at the import,
           or was stated wrongly; a correction needs its reason. What was recorded and stated before stays`;

const OPTIONS = {
  archive: { type: 'string' },
  pull: { type: 'string' },
  'pulled-on': { type: 'string' },
  reason: { type: 'string' },
  operator: { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** Undefined where it is not given. Throws an InputError for what is no day. */
export function pulledOnGiven(given: VerbArguments): string | undefined {
  const typed = given.text('pulled-on');
  if (typed === undefined) return undefined;
  const read = statedDay.safeParse(statedAsTyped(typed));
  if (read.success) return read.data;
  throw new InputError(
    'day-not-read',
    `--pulled-on "${typed}" ${read.error.issues[0]?.message ?? ''}.`,
    'pulled-on',
  );
}

export async function stateDay(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, [], 'archive');
  const pullId = pullNumber(given.text('pull'));
  const pulledOn = pulledOnGiven(given);
  if (pulledOn === undefined)
    throw new InputError(
      'day-missing',
      '--pulled-on DAY is missing: when it was pulled, like 2019-05-14 or 2019-05-14T10:30.',
      'pulled-on',
    );
  const [reason, by] = [given.text('reason')?.trim() ?? '', given.text('operator')?.trim() ?? ''];
  const access = await recorderAccess({
    archive: existingArchive(given.text('archive')),
    toRecord: true,
    note: io.err,
  });
  try {
    await access.ask('pull.state-day', {
      pullId,
      pulledOn,
      ...(reason === '' ? {} : { reason }),
      ...(by === '' ? {} : { by }),
    });
    const pull = await access.ask('pull.get', { pullId });
    if (given.has('json')) io.out(JSON.stringify({ pullId, statedDays: pull.statedDays }));
    else
      io.out(
        `Pull ${String(pullId)}: pulled on ${pulledOnText(pull) ?? ''}. What was recorded stays as it is.`,
      );
    return EXIT_DONE;
  } finally {
    await access.end();
  }
}
