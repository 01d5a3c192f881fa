/** Entry of the recorder process: `--archive FILE [--foreground]`. */
import { createRequire } from 'node:module';
import { homedir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { defaultArchivePath } from '../../core/archive/place.ts';
import { PROGRAM_VERSION } from '../command-line/program-version.ts';
import { beginOpening } from './archive-opening.ts';
import { closeWhatWasHandedDown } from './handed-down.ts';
import type * as TheRest from './run-recorder.ts';
import { programFile } from './thread-file.ts';

/** The database library dies without a word on anything older. */
const NODE_API_MIN = 10;

const log = (line: string): void => {
  process.stderr.write(`${new Date().toISOString()} ${line}\n`);
};

/** Bundled by itself, so that nothing of it is read before this file runs. */
const theRest = (): typeof TheRest =>
  createRequire(import.meta.url)(fileURLToPath(programFile('run-recorder'))) as typeof TheRest;

async function run(): Promise<number> {
  const nodeApi = Number(process.versions['napi'] ?? 0);
  if (nodeApi < NODE_API_MIN) {
    log(
      `This recorder needs Node-API ${NODE_API_MIN} (Node 22.14 or newer) and runs on Node ${process.version} with ${nodeApi}; start it with the Node that the project brings along (node_modules/.bin/node).`,
    );
    return 1;
  }
  const { values } = parseArgs({
    options: { archive: { type: 'string' }, foreground: { type: 'boolean', default: false } },
  });
  const platformPath = defaultArchivePath({
    platform: process.platform,
    home: homedir(),
    environment: process.env,
  });
  if (!values.foreground) closeWhatWasHandedDown();
  const archivePath = values.archive ?? platformPath;
  const makeFolder = values.archive === undefined || values.archive === platformPath;
  const opening = beginOpening({
    path: archivePath,
    programVersion: PROGRAM_VERSION,
    makeFolder,
    purpose: 'record',
  });
  // Loaded only now: an older Node must get the sentence above instead of dying, and the archive is opened meanwhile.
  const { runRecorder } = theRest();
  return runRecorder({ archivePath, makeFolder, foreground: values.foreground, opening, log });
}

process.on('uncaughtException', (error) => {
  // Whatever it is: the spool and the archive hold what was read, and the next recorder goes on with it.
  log(`uncaught: ${error.stack ?? error.message}`);
  // An end in order would let the database library take its log away while the archive still says that it is open, and
  // the next start would take it for half a copy.
  process.kill(process.pid, 'SIGKILL');
});

run().then(
  (code) => process.exit(code),
  (error: unknown) => {
    log(error instanceof Error ? (error.stack ?? error.message) : String(error));
    process.exit(1);
  },
);
