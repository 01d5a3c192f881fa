/** What the window remembers between starts. Losing it costs nothing but comfort, so a damaged file means defaults. */
import { mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { z } from 'zod';
import { theme } from '../../core/contract/window-requests.ts';
import { JSON_FILE_BYTES_MAX } from '../../core/limits.ts';

const rectangle = z.strictObject({
  x: z.number().int(),
  y: z.number().int(),
  width: z.number().int().positive(),
  height: z.number().int().positive(),
});

const settings = z.object({
  theme: theme.default('system'),
  place: rectangle.nullable().default(null),
  maximized: z.boolean().default(false),
  /** The archive that was chosen by menu; null for the usual place. */
  archive: z.string().min(1).max(4096).nullable().default(null),
  /** Set after the graphics process has failed several times. */
  softwareDrawing: z.boolean().default(false),
});
export type Settings = z.infer<typeof settings>;

export class SettingsFile {
  readonly #path: string;
  #now: Settings;

  constructor(path: string) {
    this.#path = path;
    this.#now = read(path);
  }

  get now(): Settings {
    return this.#now;
  }

  /** Written beside and renamed, so that a cut write leaves the one before. */
  change(changes: Partial<Settings>): void {
    this.#now = { ...this.#now, ...changes };
    try {
      mkdirSync(dirname(this.#path), { recursive: true });
      writeFileSync(`${this.#path}.new`, `${JSON.stringify(this.#now, null, 2)}\n`);
      renameSync(`${this.#path}.new`, this.#path);
    } catch {
      // A full disk or a read-only home: the window works, it only forgets.
    }
  }
}

function read(path: string): Settings {
  try {
    if (statSync(path).size > JSON_FILE_BYTES_MAX) return settings.parse({});
    return settings.parse(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return settings.parse({});
  }
}
