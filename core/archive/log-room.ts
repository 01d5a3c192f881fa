/**
 * The database's log while a pull is recorded. It has its room before it is used, and is taken into the main file in
 * small pieces between the commits, so that it is written over where it stands: syncing a file that grows costs half as
 * much again as syncing one that is written over, since its size must be kept too, and a long log is taken in for longer
 * than a commit may wait. The log ends at the last frame whose checksum holds, so what stands behind it means nothing
 * to the database.
 */
import { closeSync, fdatasyncSync, fstatSync, openSync, statSync, statfsSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { FREE_BYTES_WARNING, WAL_BYTES_MAX, WAL_TAKEN_IN_BYTES } from '../limits.ts';
import type { Connection } from './sql.ts';

/** Twice what gathers between two times that the log is taken in; written and synced in the time between two commits. */
const STEP_BYTES = 2 * WAL_TAKEN_IN_BYTES;
/** Pages that every commit of a batch writes anew, of both tables of blocks and their indexes. */
const PAGES_PER_COMMIT = 4;
const PAGE_BYTES = 4096;

const logPath = (archivePath: string): string => `${archivePath}-wal`;

/** What the log takes on the disk, its room included; 0 where there is none. */
export const logBytesOf = (archivePath: string): number =>
  statSync(logPath(archivePath), { throwIfNoEntry: false })?.size ?? 0;

interface LogTended {
  /** Bytes that the log may take before it has to grow; null before it was looked at. */
  room: number | null;
  /** Written since it was taken in, about. */
  gathered: number;
}

const logOf = new WeakMap<Connection, LogTended>();

function tendedOf(connection: Connection): LogTended {
  const known = logOf.get(connection);
  if (known !== undefined) return known;
  const fresh = { room: null, gathered: 0 };
  logOf.set(connection, fresh);
  return fresh;
}

/** A batch of so many bytes was committed. Only remembered: the recorder is waiting for the answer. */
export function noteLogged(connection: Connection, bytes: number): void {
  tendedOf(connection).gathered += (PAGES_PER_COMMIT + Math.ceil(bytes / PAGE_BYTES)) * PAGE_BYTES;
}

/** To be called between two commits. Never throws: what the disk refuses here it refuses the next commit too. */
export function tendLog(connection: Connection): void {
  const log = tendedOf(connection);
  if (log.room !== null && log.gathered < WAL_TAKEN_IN_BYTES) return;
  if (log.gathered >= WAL_TAKEN_IN_BYTES) {
    log.gathered = 0;
    try {
      connection.pragma('wal_checkpoint(PASSIVE)');
    } catch {
      // It grows until it can be taken in, and is taken in as a whole past WAL_BYTES_MAX.
    }
  }
  const room = log.room ?? 0;
  if (room >= WAL_BYTES_MAX) return;
  try {
    log.room = extended(logPath(connection.name), room);
  } catch {
    // The log grows by itself then, as it would without this.
    log.room = Infinity;
  }
}

/** Bytes that the log may take before it has to grow; unchanged while it has not outgrown them. */
function extended(path: string, room: number): number {
  const file = openSync(path, 'r+');
  try {
    const { size } = fstatSync(file);
    if (size <= room) return room;
    const { bavail, bsize } = statfsSync(dirname(path));
    if (bavail * bsize < FREE_BYTES_WARNING) return room;
    writeSync(file, Buffer.alloc(STEP_BYTES), 0, STEP_BYTES, size);
    fdatasyncSync(file);
    return size + STEP_BYTES;
  } finally {
    closeSync(file);
  }
}
