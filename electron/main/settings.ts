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
import * as z from 'zod/mini';
import { renameWhenFree } from '../../core/archive/rename-when-free.ts';
import { LANGUAGES, THEMES } from '../../core/contract/looks.ts';
import { JSON_FILE_BYTES_MAX, OTHER_ARCHIVES_MAX } from '../../core/limits.ts';

// Read before the window is there, so by the schema library's small form: it is there in a fifth of the other's time.
const rectangle = z.strictObject({
  x: z.int(),
  y: z.int(),
  width: z.int().check(z.positive()),
  height: z.int().check(z.positive()),
});
const path = z.string().check(z.minLength(1), z.maxLength(4096));

const settings = z.object({
  theme: z._default(z.enum(THEMES), 'system'),
  /** Of menu and dialogs, until the page says which. */
  language: z._default(z.enum(LANGUAGES), 'en'),
  place: z._default(z.nullable(rectangle), null),
  maximized: z._default(z.boolean(), false),
  /** The archive that was chosen by menu; null for the usual place. */
  archive: z._default(z.nullable(path), null),
  /** The folder of own rule packs; null for the usual one. */
  rulesFolder: z._default(z.nullable(path), null),
  /** By the path of the archive: the folder of its backups by age, when the last one was made, and whether it went there. */
  backups: z._default(
    z.record(
      z.string().check(z.maxLength(4096)),
      z.object({
        folder: z.nullable(path),
        lastWallMs: z.int(),
        lastInFolder: z._default(z.boolean(), false),
      }),
    ),
    {},
  ),
  /** Archives that are looked through beside the open one. */
  otherArchives: z._default(z.array(path).check(z.maxLength(OTHER_ARCHIVES_MAX)), []),
  /** Set after the graphics process has failed several times. */
  softwareDrawing: z._default(z.boolean(), false),
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
