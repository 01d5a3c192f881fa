/** The recorder's programs, which need only a Node. */
import { fileURLToPath } from 'node:url';

/** As the program ships it. */
export const RECORDER_PROGRAM = fileURLToPath(new URL('../../../build/recorder/main.cjs', import.meta.url));

/** From source, where a test reaches into a module of it. */
export const RECORDER_SOURCE = fileURLToPath(new URL('../../../electron/recorder/main.ts', import.meta.url));
