/**
 * What the window remembers between starts. A damaged file is set aside under a name that says so, and the one of before
 * counts; without one, the defaults do.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { z } from 'zod';
import { renameWhenFree } from '../../core/archive/rename-when-free.ts';
import { OTHER_ARCHIVES_MAX } from '../../core/contract/file-requests.ts';
import { spokenLanguage, theme } from '../../core/contract/window-requests.ts';
import { JSON_FILE_BYTES_MAX } from '../../core/limits.ts';

const rectangle = z.strictObject({
  x: z.number().int(),
  y: z.number().int(),
  width: z.number().int().positive(),
  height: z.number().int().positive(),
});

const settings = z.object({
  theme: theme.default('system'),
  /** Of menu and dialogs, until the page says which. */
  language: spokenLanguage.default('en'),
  place: rectangle.nullable().default(null),
  maximized: z.boolean().default(false),
  /** The archive that was chosen by menu; null for the usual place. */
  archive: z.string().min(1).max(4096).nullable().default(null),
  /** The folder of own rule packs; null for the usual one. */
  rulesFolder: z.string().min(1).max(4096).nullable().default(null),
  /** By the path of the archive: the folder of its backups by age, and when the last one was made. */
  backups: z
    .record(
      z.string().max(4096),
      z.object({ folder: z.string().min(1).max(4096).nullable(), lastWallMs: z.number().int() }),
    )
    .default({}),
  /** Archives that are looked through beside the open one. */
  otherArchives: z.array(z.string().min(1).max(4096)).max(OTHER_ARCHIVES_MAX).default([]),
  /** Set after the graphics process has failed several times. */
  softwareDrawing: z.boolean().default(false),
});
export type Settings = z.infer<typeof settings>;

export class SettingsFile {
  readonly #path: string;
  #now: Settings;
  /** Where a damaged file was put; null where it was sound, or none. */
  readonly setAsideTo: string | null;

  constructor(path: string) {
    this.#path = path;
    const found = read(path);
    const isDamaged = found === null && existsSync(path);
    this.setAsideTo = isDamaged ? setAside(path) : null;
    // The one before counts too where a change was cut between its two renames.
    this.#now = found ?? read(beforeOf(path)) ?? settings.parse({});
  }

  get now(): Settings {
    return this.#now;
  }

  /** Written beside, synced and renamed, the one before kept: a cut write or an emptied file loses one change at most. */
  change(changes: Partial<Settings>): void {
    this.#now = { ...this.#now, ...changes };
    try {
      mkdirSync(dirname(this.#path), { recursive: true });
      writeSynced(`${this.#path}.new`, `${JSON.stringify(this.#now, null, 2)}\n`);
      if (existsSync(this.#path)) renameWhenFree(this.#path, beforeOf(this.#path));
      renameWhenFree(`${this.#path}.new`, this.#path);
    } catch {
      // A full disk or a read-only home: the window works, it only forgets.
    }
  }
}

const beforeOf = (path: string): string => `${path}.before`;

/** Null where there is no file, or none that says what settings say. */
function read(path: string): Settings | null {
  try {
    if (statSync(path).size > JSON_FILE_BYTES_MAX) return null;
    return settings.parse(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return null;
  }
}

/** Null where it could not be renamed; then it stays where it is until the next change. */
function setAside(path: string): string | null {
  const aside = `${path}.damaged-${new Date().toISOString().replace(/[:.]/g, '-')}`;
  try {
    renameWhenFree(path, aside);
    return aside;
  } catch {
    return null;
  }
}

function writeSynced(path: string, text: string): void {
  const file = openSync(path, 'w');
  try {
    writeSync(file, text);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
