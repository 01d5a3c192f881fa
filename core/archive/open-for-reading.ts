/**
 * Opening an archive for reading: nothing in it nor beside it is changed. Read in place where that can be done so
 * (sound permissions, no log left behind, present form); otherwise by way of a copy, log included, that goes away.
 */
import { accessSync, constants, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { ArchiveFault, archiveFaultOf } from './archive-fault.ts';
import { checkHead } from './check-head.ts';
import { copyForReading, hasLog } from './copy-for-reading.ts';
import { cutShortAside, cutShortSentence } from './cut-short-restore.ts';
import type { DatabaseHead } from './file-head.ts';
import { hasNoLog, saysOpen } from './half-copy.ts';
import { migrate } from './migrate.ts';
import { SCHEMA_VERSION } from './migrations/index.ts';
import { networkShareName } from './network-share.ts';
import { isWhole, requireIndex } from './search/make-index.ts';
import { type OpenOptions, type OpenedArchive, quickCheck, requireFull, setUp } from './open-archive.ts';

/** Throws an ArchiveFault; anything else that is thrown is a bug. */
export function openArchiveForReading(path: string, options: OpenOptions): OpenedArchive {
  const full = resolve(path);
  try {
    const head = checkReadable(full);
    const noLog = hasNoLog(full, head);
    if (canReadInPlace(full, head)) {
      const connection = openedAt(full, full, options);
      const isHalfCopy = noLog && saysOpen(connection);
      if (isWhole(connection))
        return { connection, isHalfCopy, isTakenBack: false, close: () => connection.close() };
      connection.close();
    }
    const copy = copyForReading(full, options.onCopied);
    try {
      const connection = openedAt(copy.path, full, options);
      return {
        connection,
        isHalfCopy: noLog && saysOpen(connection),
        isTakenBack: false,
        close: () => {
          connection.close();
          copy.discard();
        },
      };
    } catch (error) {
      copy.discard();
      throw error;
    }
  } catch (error) {
    throw archiveFaultOf(error, full) ?? error;
  }
}

function checkReadable(full: string): DatabaseHead {
  const stats = statSync(full, { throwIfNoEntry: false });
  if (stats !== undefined && !stats.isFile())
    throw new ArchiveFault('archive-not-a-database', `${full} is no file; choose a file for the archive.`);
  if (stats !== undefined) requireReadPermission(full);
  const head = checkHead(full);
  if (head.kind === 'database') return head;
  if (head.kind === 'missing') {
    const aside = cutShortAside(full);
    throw new ArchiveFault(
      'archive-missing',
      aside === null
        ? `There is no archive ${full}. None was made; give another file.`
        : cutShortSentence(full, aside),
    );
  }
  throw new ArchiveFault(
    'archive-empty',
    `The file ${full} holds nothing yet, so there is nothing to read. Nothing was changed; give another file, or record a pull into it.`,
  );
}

function requireReadPermission(full: string): void {
  try {
    accessSync(full, constants.R_OK);
  } catch {
    throw new ArchiveFault(
      'archive-unreadable',
      `The archive ${full} may not be read by this user. Nothing was changed; give read permission.`,
    );
  }
}

/** Read in place the database takes its lock on the file, and an empty log stands beside it meanwhile. */
function canReadInPlace(full: string, head: DatabaseHead): boolean {
  const folder = dirname(full);
  return (
    head.userVersion === SCHEMA_VERSION &&
    !hasLog(full) &&
    isWritable(full) &&
    isWritable(folder) &&
    networkShareName(folder) === null
  );
}

function isWritable(path: string): boolean {
  try {
    accessSync(path, constants.W_OK);
    // An administrator may write to everything, but what has no write permission at all was protected on purpose.
    return (statSync(path).mode & 0o222) !== 0;
  } catch {
    return false;
  }
}

/** `at` is the archive itself or its copy; sentences speak of the archive. */
function openedAt(at: string, full: string, options: OpenOptions): Database.Database {
  const connection = new Database(at, { timeout: 0, fileMustExist: true });
  try {
    setUp(connection);
    quickCheck(connection, full);
    // An archive of an earlier form is read as its copy would be after the step to the present one.
    if (at !== full) migrate(connection, at, { ...options, backup: false });
    requireFull(connection, full);
    if (at !== full) requireIndex(connection);
    connection.pragma('query_only = ON');
    return connection;
  } catch (error) {
    connection.close();
    throw error;
  }
}
