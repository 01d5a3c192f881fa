/**
 * A restore that has to rename the archive before the copy takes its place (no second names on that file system, or a log
 * that can't be taken in) leaves nothing at that place for a moment. A note beside it says so before the first rename and
 * goes when the place is taken, so that whoever finds the place empty knows where the archive lies and puts it back.
 */
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { z } from 'zod';
import { ArchiveFault } from './archive-fault.ts';
import { discardPart } from './discard-part.ts';
import { discardLeftOf, isThere } from './left-parts.ts';
import { renameWhenFree } from './rename-when-free.ts';
import { putArchiveBack } from './set-aside.ts';
import { syncFile, syncFolder } from './sync-folder.ts';

/** Five names with all that their holders are waited for take a few seconds: an older note is of nobody at work. */
const AT_WORK_MS_MAX = 60_000;

/** A name in the same folder, never a way to another one: a note may have been put there by anybody. */
const noteSchema = z.object({
  aside: z
    .string()
    .min(1)
    .refine((name) => basename(name) === name && name !== '.' && name !== '..'),
  pid: z.number().int().positive(),
});

const noteOf = (full: string): string => `${full}.restoring`;

/** On the disk before anything is renamed: where the archive is going to lie. */
export function noteRestore(full: string, aside: string): void {
  const note = noteOf(full);
  writeFileSync(note, JSON.stringify({ aside: basename(aside), pid: process.pid }));
  syncFile(note);
  syncFolder(dirname(full));
}

/** Something stands at the archive's place again. */
export function forgetRestore(full: string): void {
  discardPart(noteOf(full));
}

/** Where the archive lies that a restore was killed over, while its place is empty; null otherwise. */
export function cutShortAside(full: string): string | null {
  if (existsSync(full)) return null;
  const aside = noted(full)?.aside;
  if (aside === undefined) return null;
  const path = join(dirname(full), aside);
  return existsSync(path) ? path : null;
}

/**
 * Puts the archive back that a killed restore had renamed; whether there was one. Throws an ArchiveFault where somebody
 * restores at this moment and where it can't be renamed: nothing may be begun at that place then.
 */
export function takeBackRestore(full: string, rename = renameWhenFree): boolean {
  if (!existsSync(noteOf(full))) return false;
  const aside = cutShortAside(full);
  const isHeld = isAtWork(full);
  if (aside === null) {
    // Before its first rename, and behind its last, somebody at work still needs the note.
    if (!isHeld) forgetRestore(full);
    return false;
  }
  if (isHeld)
    throw new ArchiveFault(
      'archive-in-use',
      `A backup is being put in the place of ${full} by another program; wait until it has finished.`,
    );
  try {
    putArchiveBack(aside, full, rename);
  } catch (error) {
    throw new ArchiveFault(
      'archive-unreadable',
      `A restore of ${full} was cut short, and the archive that stood there could not be put back: it lies whole at ${aside}. Close what holds files in that folder and try again, or rename it back.`,
      error instanceof Error ? error.message : String(error),
    );
  }
  forgetRestore(full);
  // The copy that was to take its place is as large as an archive.
  discardLeftOf(dirname(full), (name) => name === basename(full));
  return true;
}

export const takenBackSentence = (path: string): string =>
  `A restore of ${path} was cut short before the backup stood there. The archive is back at its place as it was, and the backup is untouched; restore again if it is still wanted.`;

export const cutShortSentence = (path: string, aside: string): string =>
  `A restore of ${path} was cut short, and the archive lies whole at ${aside}. Nothing was changed; start Gaugemark with that archive and it is put back, or read it where it lies.`;

/** Null where there is no note, or one that nobody wrote to its end: nothing had been renamed then. */
function noted(full: string): z.infer<typeof noteSchema> | null {
  try {
    return noteSchema.parse(JSON.parse(readFileSync(noteOf(full), 'utf8')));
  } catch {
    return null;
  }
}

function isAtWork(full: string): boolean {
  const pid = noted(full)?.pid;
  if (pid === undefined || pid === process.pid || !isThere(pid)) return false;
  const writtenMs = statSync(noteOf(full), { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return Math.abs(Date.now() - writtenMs) < AT_WORK_MS_MAX;
}
