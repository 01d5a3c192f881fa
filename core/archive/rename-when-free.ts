/** A rename that waits a little for whoever holds the file: on some systems a virus scanner or a sync tool does, for moments. */
import { renameSync } from 'node:fs';

/** Waits of 20, 40, 80 and 160 ms: longer than a scanner takes, shorter than the queue of a port lasts. */
const RENAME_TRIES_MAX = 5;
const FIRST_WAIT_MS = 20;
/** What such a hold is answered with; anything else will not pass by waiting. */
const HELD: ReadonlySet<unknown> = new Set(['EBUSY', 'EPERM', 'EACCES']);

/** Throws what the last try threw; `from` and what was at `to` are then as they were. */
export function renameWhenFree(
  from: string,
  to: string,
  rename: (from: string, to: string) => void = renameSync,
): void {
  for (let tried = 1; ; tried++) {
    try {
      rename(from, to);
      return;
    } catch (error) {
      const isHeld = error instanceof Error && 'code' in error && HELD.has(error.code);
      if (!isHeld || tried === RENAME_TRIES_MAX) throw error;
      pauseThread(FIRST_WAIT_MS * 2 ** (tried - 1));
    }
  }
}

function pauseThread(ms: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}
