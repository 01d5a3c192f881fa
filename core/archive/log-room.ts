/**
 * Room for the database's log, taken ahead of its use. Syncing a file that grows costs half as much again as syncing
 * one that is written over, since its size must be kept too. The log ends at the last frame whose checksum holds, so
 * the zeros behind it mean nothing to the database.
 */
import { closeSync, fdatasyncSync, fstatSync, openSync, statfsSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { FREE_BYTES_WARNING, WAL_BYTES_MAX } from '../limits.ts';
import type { Connection } from './sql.ts';

/** About a quarter of a minute of a fast readout; written and synced in the time between two commits. */
const STEP_BYTES = 4 * 1_048_576;

const roomOf = new WeakMap<Connection, number>();

/** To be called after a commit: where the log has grown past its room, takes more. A disk that refuses is left alone. */
export function keepLogRoom(connection: Connection): void {
  const room = roomOf.get(connection) ?? 0;
  if (room >= WAL_BYTES_MAX) return;
  try {
    roomOf.set(connection, extended(`${connection.name}-wal`, room));
  } catch {
    // The log grows by itself then, as it would without this.
    roomOf.set(connection, Infinity);
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
