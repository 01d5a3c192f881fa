/**
 * A copy of an archive in a folder of its own, for reading where nothing may be changed: the database library would
 * put files beside the original, take its log into it, or refuse. The log is copied too: what stands in it counts.
 */
import {
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  mkdtempSync,
  openSync,
  readSync,
  readdirSync,
  rmSync,
  statSync,
  statfsSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ArchiveFault } from './archive-fault.ts';
import { discardFolder } from './discard-part.ts';
import { isThere } from './left-parts.ts';

/** The main file, and what the database keeps beside it while something is under way. */
const DATABASE_FILES = ['', '-wal', '-journal'] as const;
const TRIES = 5;
const MEBIBYTE = 1_048_576;
/** Between two words on how far the copy is. */
const BYTES_AT_ONCE = 8 * MEBIBYTE;

/** Bytes of the main file, or of one beside it. */
export type CopyWatch = (done: number, of: number) => void;

export interface ReadingCopy {
  readonly path: string;
  readonly discard: () => void;
}

/** Whether something beside the main file belongs to its content. An empty log holds nothing. */
export function hasLog(full: string): boolean {
  return bytesOf(`${full}-wal`) > 0 || bytesOf(`${full}-journal`) > 0;
}

/** Throws an ArchiveFault where there is no room for it, or the original changes all the while; and what `watch` throws. */
export function copyForReading(full: string, watch: CopyWatch = () => undefined): ReadingCopy {
  const folder = copyFolder(full);
  const discard = (): void => rmSync(folder, { recursive: true, force: true });
  try {
    requireRoom(full, folder);
    const path = join(folder, 'archive');
    for (let tried = 0; tried < TRIES; tried++) {
      const before = stampOf(full);
      for (const suffix of DATABASE_FILES) copyIfThere(full + suffix, path + suffix, watch);
      // What is written to while it is copied may be torn.
      if (stampOf(full) === before) return { path, discard };
    }
    throw new ArchiveFault(
      'archive-in-use',
      `Another running program is writing to the archive ${full}; wait until it has finished, or close it there. Nothing was changed.`,
    );
  } catch (error) {
    discard();
    throw error;
  }
}

const READING = 'gaugemark-reading-';
const OF_PROCESS = new RegExp(`^${READING}([1-9]\\d{0,9})-`);

/** What others were killed over is taken away: a copy is as large as the archive. */
function dropLeftCopies(): void {
  try {
    for (const name of readdirSync(tmpdir())) {
      const pid = OF_PROCESS.exec(name)?.[1];
      if (pid !== undefined && !isThere(Number(pid))) discardFolder(join(tmpdir(), name));
    }
  } catch {
    // A folder that can't be listed may still take a copy.
  }
}

function copyFolder(full: string): string {
  try {
    dropLeftCopies();
    return mkdtempSync(join(tmpdir(), `${READING}${String(process.pid)}-`));
  } catch (error) {
    throw new ArchiveFault(
      'archive-unreadable',
      `The archive ${full} can be read only by way of a copy, and no folder can be made in ${tmpdir()} for it; set TMPDIR to a folder that can be written to. Nothing was changed.`,
      error instanceof Error ? error.message : String(error),
    );
  }
}

function requireRoom(full: string, folder: string): void {
  const needed = DATABASE_FILES.reduce((sum, suffix) => sum + bytesOf(full + suffix), 0);
  const { bavail, bsize } = statfsSync(folder);
  // Twice: the log may be taken into the copy.
  if (bavail * bsize < 2 * needed)
    throw new ArchiveFault(
      'archive-disk-full',
      `The archive ${full} can be read only by way of a copy, and ${tmpdir()} has no room for it (${Math.ceil((2 * needed) / MEBIBYTE)} MiB); free some, or set TMPDIR to a folder on a larger disk. Nothing was changed.`,
    );
}

function copyIfThere(from: string, to: string, watch: CopyWatch): void {
  rmSync(to, { force: true });
  const bytes = bytesOf(from);
  if (bytes === 0) return;
  if (!sharedCopy(from, to)) copyInParts(from, to, bytes, watch);
  // A shared copy takes over the original's permissions.
  chmodSync(to, 0o600);
}

/** At once, where the file system can let both share what they hold. */
function sharedCopy(from: string, to: string): boolean {
  try {
    copyFileSync(from, to, constants.COPYFILE_FICLONE_FORCE);
    return true;
  } catch {
    // Whatever is wrong with the files themselves, the copy in parts says.
    rmSync(to, { force: true });
    return false;
  }
}

function copyInParts(from: string, to: string, bytes: number, watch: CopyWatch): void {
  const room = Buffer.allocUnsafe(Math.min(BYTES_AT_ONCE, bytes));
  const source = openSync(from, 'r');
  try {
    const target = openSync(to, 'wx', 0o600);
    try {
      for (let at = 0; ;) {
        const got = readSync(source, room, 0, room.length, at);
        if (got === 0) return;
        for (let written = 0; written < got;)
          written += writeSync(target, room, written, got - written, at + written);
        at += got;
        watch(Math.min(at, bytes), bytes);
      }
    } finally {
      closeSync(target);
    }
  } finally {
    closeSync(source);
  }
}

function bytesOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}

function stampOf(full: string): string {
  return DATABASE_FILES.map((suffix) => {
    const stats = statSync(full + suffix, { bigint: true, throwIfNoEntry: false });
    return stats === undefined ? 'none' : `${stats.ino} ${stats.size} ${stats.mtimeNs} ${stats.ctimeNs}`;
  }).join();
}
