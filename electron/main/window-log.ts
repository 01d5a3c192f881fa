/** What went wrong with the window, for whoever looks into it later. Bounded: one file and the one before. */
import { appendFileSync, mkdirSync, renameSync, statSync } from 'node:fs';
import { dirname } from 'node:path';

const LOG_BYTES_MAX = 1_048_576;
const LINE_LENGTH_MAX = 4_000;

export class WindowLog {
  readonly path: string;

  constructor(path: string) {
    this.path = path;
  }

  note(what: string): void {
    try {
      mkdirSync(dirname(this.path), { recursive: true });
      if ((statSync(this.path, { throwIfNoEntry: false })?.size ?? 0) > LOG_BYTES_MAX)
        renameSync(this.path, `${this.path}.before`);
      appendFileSync(this.path, `${new Date().toISOString()} ${what.slice(0, LINE_LENGTH_MAX)}\n`);
    } catch {
      // A log that can't be written must not stop what it would have told of.
    }
  }
}
