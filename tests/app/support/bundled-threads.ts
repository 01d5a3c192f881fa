/**
 * Takes the place of electron/recorder/thread-file.ts in tests: the threads as the program ships them. Each start from
 * source reads hundreds of files, and there are hundreds of starts.
 */
import type { ThreadName } from '../../../electron/recorder/thread-file.ts';

export const threadFile = (name: ThreadName): URL =>
  new URL(`../../../build/recorder/${name}.cjs`, import.meta.url);
