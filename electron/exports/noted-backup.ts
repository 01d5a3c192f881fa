/**
 * The last good backup of each archive that the command line made, noted in a file of its own among the person's data: the
 * window reminds of backups, and a timer may make them. Neither the archive nor anything beside it is written to. A note
 * says only where to look; whether a backup lies there is looked up by whoever reads it.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync, realpathSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import * as z from 'zod/mini';
import { discardPart } from '../../core/archive/discard-part.ts';
import { personPlace } from '../../core/archive/place.ts';
import { renameWhenFree } from '../../core/archive/rename-when-free.ts';

/** Archives of which it is noted; those that were backed up longest ago are forgotten first. */
const NOTED_MAX = 100;

const note = z.strictObject({
  archive: z.string().check(z.maxLength(4096)),
  /** The file that was written, whole. */
  path: z.string().check(z.minLength(1), z.maxLength(4096)),
  wallMs: z.int(),
});
export type NotedBackup = z.infer<typeof note>;

export const usualNotesFolder = (): string =>
  personPlace(
    { platform: process.platform, home: homedir(), environment: process.env },
    { onWindows: 'local', variable: 'XDG_DATA_HOME', under: ['.local', 'share'] },
    'backups-made',
  );

/** By whatever way one comes to the archive. */
function placeOf(archive: string): string {
  try {
    return realpathSync(archive);
  } catch {
    return resolve(archive);
  }
}

const nameOf = (place: string): string =>
  `${createHash('sha256').update(place).digest('hex').slice(0, 32)}.json`;

/** Of a backup that was made: where the note can't be written, the backup is no worse for it. */
export function noteBackup(folder: string, made: NotedBackup): void {
  const archive = placeOf(made.archive);
  const path = join(folder, nameOf(archive));
  const temporary = `${path}.${String(process.pid)}.part`;
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    writeFileSync(temporary, JSON.stringify({ ...made, archive }), { mode: 0o600 });
    renameWhenFree(temporary, path);
    forgetOldest(folder);
  } catch {
    discardPart(temporary);
  }
}

function forgetOldest(folder: string): void {
  const notes = readdirSync(folder).map((name) => ({ name, mtimeMs: statSync(join(folder, name)).mtimeMs }));
  for (const { name } of notes.toSorted((a, b) => b.mtimeMs - a.mtimeMs).slice(NOTED_MAX))
    rmSync(join(folder, name), { force: true });
}

/** Null where none is noted of this archive, or what there is can't be read. */
export function notedBackup(folder: string, archive: string): NotedBackup | null {
  const place = placeOf(archive);
  try {
    const read = z.safeParse(note, JSON.parse(readFileSync(join(folder, nameOf(place)), 'utf8')));
    return read.success && read.data.archive === place ? read.data : null;
  } catch {
    return null;
  }
}
