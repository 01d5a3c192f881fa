/** `gaugemark archive restore BACKUP`: a backup in the place of the archive, which is kept under another name. */
import { resolve } from 'node:path';
import { planRestore, restoreBackup } from '../../core/archive/restore-backup.ts';
import type { ArchiveState, RestorePlan } from '../../core/contract/exchange-requests.ts';
import { counted } from '../../core/words/counted.ts';
import { faultOf } from '../recorder/request-refused.ts';
import { takeArguments } from './arguments.ts';
import { PROGRAM_VERSION } from './program-version.ts';
import { errorOf, existingArchive } from './recorder-access.ts';
import { refuseOpenArchive } from './refuse-open-archive.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const ARCHIVE_RESTORE_USAGE = 'gaugemark archive restore BACKUP --archive FILE [--yes] [--json]';

export const ARCHIVE_RESTORE_HELP = `  restore  puts a backup in the place of the archive, which stays beside it under another name with all that belongs to
           it. Without --yes it is only told what would change`;

const OPTIONS = {
  archive: { type: 'string' },
  yes: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

export async function archiveRestore(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, ['The backup'], 'archive');
  const archive = given.text('archive');
  if (archive === undefined)
    throw new InputError(
      'option-missing',
      '--archive FILE is missing: the archive in whose place the backup is put.',
      'archive',
    );
  const path = resolve(archive);
  const backup = existingArchive(given.positionals[0]);
  await refuseOpenArchive(path, 'restore');
  const reading = { programVersion: PROGRAM_VERSION, wallMs: Date.now };
  const plan = said(() => planRestore(backup, path, reading));
  const setAsideTo = given.has('yes') ? said(() => restoreBackup(backup, path, reading)) : null;
  if (given.has('json')) io.out(JSON.stringify({ ...plan, restored: given.has('yes'), setAsideTo }));
  else {
    for (const line of planText(plan)) io.out(line);
    if (!given.has('yes')) io.out('Nothing was changed; --yes puts the backup in the place of the archive.');
    else
      io.out(
        `${path} is the backup now, and records under an identity of its own: numbers of certificates end otherwise from here on.${setAsideTo === null ? '' : ` What was there is ${setAsideTo}; all of it is kept, and archive merge takes in its pulls.`}`,
      );
  }
  return EXIT_DONE;
}

function said<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    const fault = faultOf(error);
    throw fault === null ? error : errorOf(fault);
  }
}

function planText({ backup, here, isSameArchive, ...only }: RestorePlan): string[] {
  return [
    `The backup:  ${stateText(backup)}`,
    here === null
      ? 'There is no archive in that place yet.'
      : typeof here === 'string'
        ? `The archive can’t be read: ${here}`
        : `The archive: ${stateText(here)}`,
    ...(isSameArchive === false
      ? ['They are two different archives; to bring them together use archive merge.']
      : []),
    ...(only.onlyHereCount === 0
      ? []
      : [
          `Only in the archive, and gone from it afterwards: ${pullsText(only.onlyHere, only.onlyHereCount)}`,
        ]),
    ...(only.statementsOnlyHere === 0
      ? []
      : [
          `Of what was said and decided, only in the archive and gone from it afterwards: ${String(only.statementsOnlyHere)} ${only.statementsOnlyHere === 1 ? 'entry' : 'entries'} (evaluations, fractures, sets, certificates …)`,
        ]),
    ...(only.onlyInBackupCount === 0
      ? []
      : [`Only in the backup: ${pullsText(only.onlyInBackup, only.onlyInBackupCount)}`]),
  ];
}

const stateText = ({ pullCount, specimenCount, readingCount, lastPullWallMs }: ArchiveState): string =>
  `${counted(pullCount, 'pull')} of ${counted(specimenCount, 'specimen record')}, ${counted(readingCount, 'reading')}${lastPullWallMs === null ? '' : `, the last begun ${new Date(lastPullWallMs).toISOString()}`}`;

const TOLD_MAX = 12;

const pullsText = (ids: readonly number[], count: number): string =>
  `${count === 1 ? 'pull' : `${String(count)} pulls:`} ${ids.slice(0, TOLD_MAX).join(', ')}${count > TOLD_MAX ? ' …' : ''}`;
