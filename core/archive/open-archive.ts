/**
 * Opening the archive: everything that can be wrong is found before anything is written, and has a sentence.
 * The connection is the only one: exclusive locking is set before WAL, so that there is no shared-memory file
 * (on a full disk it would end the process with SIGBUS), and the system's lock on the file is the owner's lock.
 */
import { accessSync, constants, existsSync, mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { ARCHIVE_QUICK_CHECK_BYTES_MAX, WAL_BYTES_MAX } from '../limits.ts';
import { ArchiveFault, archiveFaultOf, damagedFault, readOnlySentence } from './archive-fault.ts';
import { checkHead, refuseNewer } from './check-head.ts';
import { goOnByItself } from './copy-goes-on.ts';
import type { CopyWatch } from './copy-for-reading.ts';
import { takeBackRestore } from './cut-short-restore.ts';
import { hasNoLog, sayClosed, sayOpen, saysOpen } from './half-copy.ts';
import { migrate } from './migrate.ts';
import { networkShareName } from './network-share.ts';
import { requireIndex } from './search/make-index.ts';
import type { Connection } from './sql.ts';

const SYNCHRONOUS_FULL = 2;
const PAGE_BYTES = 4096;
/** Pages held in memory: twice the library's own, so that of a large archive what a search looks into stays at hand. */
const HELD_PAGES_KIB = 32_768;

export interface OpenOptions {
  readonly programVersion: string;
  readonly wallMs: () => number;
  /** Make the archive's own folder where it is missing (the default place only). */
  readonly makeFolder?: boolean;
  /** `read`: nothing in the archive nor beside it is changed. Default `record`. */
  readonly purpose?: 'record' | 'read';
  /** Name of the network share that a folder lies on, null for a disk of this computer. Default: by its file system. */
  readonly shareName?: (folder: string) => string | null;
  /** Told while a copy is made to be read; what it throws ends the copying. */
  readonly onCopied?: CopyWatch;
  /** Told, in rows, while an earlier form is brought to the present one; what it throws undoes that. */
  readonly onBroughtUp?: (done: number, of: number) => void;
}

export interface OpenedArchive {
  readonly connection: Connection;
  /** What was kept last is missing: see half-copy.ts. */
  readonly isHalfCopy: boolean;
  /** A restore had been killed between two renames, and the archive was put back: see cut-short-restore.ts. */
  readonly isTakenBack: boolean;
  /** Closes the connection, and what was made for it goes away. */
  readonly close: () => void;
}

/**
 * Opens or begins an archive for recording. An empty file is begun, as a missing one is: that is what a start leaves
 * that was killed in its first moment. Throws an ArchiveFault; anything else that is thrown is a bug.
 */
export function openArchiveFile(path: string, options: OpenOptions): OpenedArchive {
  const full = resolve(path);
  try {
    if (options.makeFolder === true) mkdirSync(dirname(full), { recursive: true, mode: 0o700 });
    checkPlace(full, options.shareName ?? networkShareName);
    const isTakenBack = takeBackRestore(full);
    const head = checkHead(full);
    const noLog = hasNoLog(full, head);
    const connection = new Database(full, { timeout: 0 });
    try {
      setUp(connection);
      refuseNewer(full, pragmaNumber(connection, 'user_version'));
      quickCheck(connection, full);
      migrate(connection, full, options);
      requireFull(connection, full);
      requireIndex(connection);
      goOnByItself(connection, { wallMs: options.wallMs(), programVersion: options.programVersion });
      const isHalfCopy = noLog && saysOpen(connection);
      sayOpen(connection, head.kind === 'database');
      return {
        connection,
        isHalfCopy,
        isTakenBack,
        close: () => {
          try {
            if (connection.open) sayClosed(connection);
          } finally {
            connection.close();
          }
        },
      };
    } catch (error) {
      connection.close();
      throw error;
    }
  } catch (error) {
    throw archiveFaultOf(error, full) ?? error;
  }
}

function checkPlace(full: string, shareName: (folder: string) => string | null): void {
  const folder = dirname(full);
  const folderStats = statSync(folder, { throwIfNoEntry: false });
  if (folderStats === undefined)
    throw new ArchiveFault(
      'archive-folder-missing',
      `The folder ${folder} for the archive does not exist; make it first or choose another one.`,
    );
  if (!folderStats.isDirectory())
    throw new ArchiveFault(
      'archive-folder-missing',
      `${folder} is no folder, so no archive can lie in it; choose another place.`,
    );
  const share = shareName(folder);
  if (share !== null)
    throw new ArchiveFault(
      'archive-on-network',
      `The folder ${folder} lies on a network share (${share}), where a recording is not safe; record on a disk of this computer and back up to the share.`,
    );
  accessSync(folder, constants.W_OK | constants.X_OK);
  if (!existsSync(full)) return;
  const stats = statSync(full);
  if (!stats.isFile())
    throw new ArchiveFault('archive-not-a-database', `${full} is no file; choose a file for the archive.`);
  accessSync(full, constants.R_OK | constants.W_OK);
  // An administrator may write to everything, but a file without any write permission was protected on purpose.
  if ((stats.mode & 0o222) === 0) throw new ArchiveFault('archive-read-only', readOnlySentence(full));
}

export function setUp(connection: Connection): void {
  // Exclusive before WAL: see above. The lock itself is taken by the first read.
  connection.pragma('locking_mode = EXCLUSIVE');
  const mode = z.string().parse(connection.pragma('journal_mode = WAL', { simple: true }));
  if (mode !== 'wal') throw new Error(`the journal mode is ${mode}, not wal`);
  connection.pragma('synchronous = FULL');
  connection.pragma('foreign_keys = ON');
  connection.pragma('trusted_schema = OFF');
  connection.pragma(`cache_size = -${HELD_PAGES_KIB}`);
  connection.pragma(`wal_autocheckpoint = ${WAL_BYTES_MAX / PAGE_BYTES}`);
  connection.pragma(`journal_size_limit = ${WAL_BYTES_MAX}`);
}

/** In WAL mode this library slips to NORMAL after the first write: set it again, and believe only what is read back. */
export function requireFull(connection: Connection, full: string): void {
  connection.pragma('synchronous = FULL');
  if (!isFull(connection))
    throw new ArchiveFault(
      'archive-unsafe',
      `The database of ${full} can't be made to sync every commit, so a recording would not be safe against a power cut.`,
    );
}

/** Whether every commit is synced, as the connection itself tells. */
export function isFull(connection: Connection): boolean {
  return pragmaNumber(connection, 'synchronous') === SYNCHRONOUS_FULL;
}

/** A large archive is checked when a person asks; a small one at every opening. */
export function quickCheck(connection: Connection, full: string): void {
  const bytes = pragmaNumber(connection, 'page_count') * pragmaNumber(connection, 'page_size');
  if (bytes > ARCHIVE_QUICK_CHECK_BYTES_MAX) return;
  const verdict = z.string().parse(connection.pragma('quick_check(1)', { simple: true }));
  if (verdict !== 'ok') throw damagedFault(full, verdict);
}

export function pragmaNumber(connection: Connection, name: string): number {
  return z.number().parse(connection.pragma(name, { simple: true }));
}
