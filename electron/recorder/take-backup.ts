/** Backups of the open archive, also while a record is made: copied between its commits, checked beside them. */
import { readdirSync, rmSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { dropUnfinishedCopy } from '../../core/archive/backup-in-steps.ts';
import type { WrittenBackup } from '../../core/archive/backup.ts';
import { discardLeftOf } from '../../core/archive/left-parts.ts';
import { looksWhole } from '../../core/archive/file-head.ts';
import type { TableCount } from '../../core/archive/table-counts.ts';
import {
  type DatedBackup,
  backupMoment,
  backupName,
  backupsToDrop,
  standIns,
} from '../../core/exchange/backup-ages.ts';
import type { KeptAges } from '../../core/contract/exchange-requests.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import { BACKUP_CHECK_MS_MAX } from '../../core/limits.ts';
import { answerOfThread } from './answer-of-thread.ts';
import type { ArchiveKeeper } from './archive-keeper.ts';
import type { CheckedBackup } from './backup-check-thread.ts';
import { type WorkWatch, stoppedRefusal } from './long-work.ts';
import { errorOf } from './thread-trouble.ts';

/**
 * Rejects with an ArchiveRefusal where the file exists or it was stopped, an ArchiveFault where it can't be written or
 * isn't sound.
 */
export async function takeBackup(
  archive: ArchiveKeeper,
  file: string,
  { signal, tell }: WorkWatch,
): Promise<WrittenBackup> {
  const to = resolve(file);
  const counts = await archive.callInSteps('copyInSteps', to);
  tell({ work: 'backup-check', done: 0, of: 0 });
  const checked = await checkedCopy(to, counts, signal);
  if (!checked.ok) throw errorOf(checked.trouble);
  return checked.written;
}

/** A thread that dies, or takes too long, cleans up nothing behind it. */
async function checkedCopy(
  to: string,
  counts: readonly TableCount[],
  signal: AbortSignal,
): Promise<CheckedBackup> {
  try {
    if (signal.aborted) throw stoppedRefusal('backup-check');
    // Both sides are this program's own files of one version.
    return (await answerOfThread({
      name: 'backup-check-thread',
      workerData: { to, counts },
      msMax: BACKUP_CHECK_MS_MAX,
      signal,
    })) as CheckedBackup;
  } catch (error) {
    dropUnfinishedCopy(to);
    throw signal.aborted ? stoppedRefusal('backup-check') : error;
  }
}

/** A dated one into a folder, and older ones of the same archive kept by age; where it fails nothing is taken away. */
export async function takeBackupInto(
  archive: ArchiveKeeper,
  folder: string,
  ages: KeptAges,
  watch: WorkWatch,
): Promise<ReplyOf<'archive.backup-into'>> {
  const into = resolve(folder);
  const name = basename(archive.path);
  const before = datedBackups(into, name);
  const written = await takeBackup(archive, join(into, backupName(name, Date.now())), watch);
  const drop = await oldBackups([...before, { path: written.path, wallMs: Date.now() }], ages, watch.signal);
  for (const { path } of drop) rmSync(path);
  // A killed backup was to bear another moment's name.
  discardLeftOf(into, (whole) => backupMoment(name, whole) !== null);
  return { ...written, dropped: drop.map(({ path }) => path) };
}

/**
 * What may be dropped. A file that is damaged holds no place against a good one and is itself left where it is; what is
 * dropped in favour of another is so only after that one's pages were read.
 */
async function oldBackups(
  backups: readonly DatedBackup[],
  ages: KeptAges,
  signal: AbortSignal,
): Promise<DatedBackup[]> {
  const sound = new Set(backups.slice(-1));
  let good = backups.filter((one) => sound.has(one) || looksWhole(one.path));
  for (;;) {
    const drop = backupsToDrop(good, ages);
    const kept = good.filter((one) => !drop.includes(one));
    const unread = drop.flatMap((one) => standIns(one, kept)).find((one) => !sound.has(one));
    if (unread === undefined) return drop;
    if (await isSound(unread.path, signal)) sound.add(unread);
    else good = good.filter((one) => one !== unread);
  }
}

/** False too where it can't be read in time: then nothing is dropped because of it. */
async function isSound(path: string, signal: AbortSignal): Promise<boolean> {
  try {
    return (
      (await answerOfThread({
        name: 'backup-check-thread',
        workerData: { look: path },
        msMax: BACKUP_CHECK_MS_MAX,
        signal,
      })) === true
    );
  } catch {
    return false;
  }
}

/** Throws an ArchiveRefusal where the folder can't be read. */
function datedBackups(folder: string, archiveName: string): DatedBackup[] {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch {
    throw new ArchiveRefusal(
      'folder-missing',
      `The folder ${folder} for backups does not exist or can’t be read; make it first or choose another one.`,
      'folder',
    );
  }
  return names.flatMap((name) => {
    const wallMs = backupMoment(archiveName, name);
    return wallMs === null ? [] : [{ path: join(folder, name), wallMs }];
  });
}
