/** The command line, which needs only a Node. */
import { fileURLToPath } from 'node:url';

/** In one file (`bundled-command-line.ts`), as deep below the project's folder as what finds the bundled threads from there. */
export const COMMAND_LINE_PROGRAM = fileURLToPath(
  new URL('../../../out/for-tests/command-line/main.mjs', import.meta.url),
);

/** As it is shipped. */
export const COMMAND_LINE_SOURCE = fileURLToPath(
  new URL('../../../electron/command-line/main.ts', import.meta.url),
);
