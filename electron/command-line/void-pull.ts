/** `gaugemark archive void --pull ID --reason TEXT`: a pull that counts no more, and stays as it was recorded. */
import { voidSentence } from '../../core/pull/void-sentence.ts';
import { takeArguments } from './arguments.ts';
import { pullNumber } from './pull-number.ts';
import { existingArchive, recorderAccess } from './recorder-access.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const VOID_USAGE =
  'gaugemark archive void --pull ID --archive FILE --reason TEXT [--operator NAME] [--json]';

export const VOID_HELP = `  void     a pull that counts no more: in no set, no verdict, no certificate but as what it is. It is not deleted and
           can't be taken back; the reason stays with it`;

const OPTIONS = {
  archive: { type: 'string' },
  pull: { type: 'string' },
  reason: { type: 'string' },
  operator: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export async function voidPull(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, [], 'archive');
  const pullId = pullNumber(given.text('pull'));
  const reason = given.text('reason')?.trim() ?? '';
  if (reason === '')
    throw new InputError(
      'reason-missing',
      '--reason TEXT is missing: why the pull counts no more. It can’t be taken back.',
      'reason',
    );
  const by = given.text('operator')?.trim() ?? '';
  const access = await recorderAccess({
    archive: existingArchive(given.text('archive')),
    toRecord: true,
    note: io.err,
  });
  try {
    await access.ask('pull.void', { pullId, reason, ...(by === '' ? {} : { by }) });
    const { voided } = await access.ask('pull.get', { pullId });
    if (given.has('json')) io.out(JSON.stringify({ pullId, voided }));
    else if (voided !== null)
      io.out(`From now on ${voidSentence(pullId, voided)}. What was recorded stays as it is.`);
    return EXIT_DONE;
  } finally {
    await access.end();
  }
}
