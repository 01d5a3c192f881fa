/**
 * A copy of the main file of an archive that was open, without the log beside it, is sound in itself and lacks what was
 * kept last. So an archive that is open for recording says so in its main file, and takes that back when it is closed:
 * a file in log mode that says so and has no log is half a copy. A backup is not in log mode.
 */
import { hasLog } from './copy-for-reading.ts';
import type { FileHead } from './file-head.ts';
import { ArchiveFault } from './archive-fault.ts';
import { type Connection, countOf } from './sql.ts';

/** Belongs to no form: it says nothing of what is kept. */
export const OPEN_TABLE = 'open_for_recording';

/** To be asked before the database library opens the file, which makes a log. */
export const hasNoLog = (full: string, head: FileHead | { readonly kind: string }): boolean =>
  head.kind === 'database' && 'isInLogMode' in head && head.isInLogMode && !hasLog(full);

/** Whether the main file says that it is open for recording. */
export const saysOpen = (connection: Connection): boolean => hasTable(connection, OPEN_TABLE);

export const hasTable = (connection: Connection, name: string): boolean =>
  countOf(connection, 'SELECT count(*) AS n FROM sqlite_schema WHERE name = ?', name) === 1;

/** Into the main file at once: it is what a copy of it alone has. One that was just begun has nothing there to be copied. */
export function sayOpen(connection: Connection, intoMainFile: boolean): void {
  connection.exec(`CREATE TABLE IF NOT EXISTS ${OPEN_TABLE} (unused INTEGER) STRICT`);
  if (intoMainFile) connection.pragma('wal_checkpoint(PASSIVE)');
}

/** Where that can't be written, the log stays beside the file too, and nothing is missing. */
export function sayClosed(connection: Connection): void {
  connection.exec(`DROP TABLE IF EXISTS ${OPEN_TABLE}`);
}

export const halfCopySentence = (path: string): string =>
  `The archive ${path} was copied while it was open, without the file "-wal" beside it: what was kept last before the copy is missing in it. Copy both files together, or use a backup that the program made.`;

/** For what must be whole: a backup to be put back, an archive to be taken in. */
export function refuseHalfCopy(path: string, isHalfCopy: boolean): void {
  if (isHalfCopy) throw new ArchiveFault('archive-half-copy', halfCopySentence(path));
}
