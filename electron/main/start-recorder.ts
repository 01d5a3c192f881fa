/** Starts the recorder as a process of its own that outlives the window and this process. */
import { spawn } from 'node:child_process';
import { closeSync, mkdirSync, openSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { WindowLog } from './window-log.ts';

/** What the recorder says on its error output is kept from its newest starts only. */
const LOG_BYTES_MAX = 1_048_576;

export interface RecorderProgram {
  readonly command: string;
  readonly args: readonly string[];
  readonly environment: Readonly<Record<string, string>>;
}

/**
 * Which Node runs it: the one that the launcher names (development), else Electron's own, as Node.
 * @param buildFolder holds the bundles
 */
export function recorderProgram(
  environment: Readonly<Record<string, string | undefined>>,
  buildFolder: string,
): RecorderProgram {
  const args = [join(onDisk(buildFolder), 'recorder', 'main.cjs')];
  const node = environment['GAUGEMARK_NODE'];
  if (node !== undefined && node !== '') return { command: node, args, environment: {} };
  return { command: process.execPath, args, environment: { ELECTRON_RUN_AS_NODE: '1' } };
}

/** A package holds in one archive file what main and page need; what another process loads lies unpacked beside it. */
function onDisk(folder: string): string {
  return folder.replace(/\bapp\.asar(?=[\\/]|$)/, 'app.asar.unpacked');
}

export interface StartOptions {
  readonly archivePath: string;
  readonly logPath: string;
  /** Where Node keeps what it has made of the recorder's source for the next start. */
  readonly compiledFolder: string;
  readonly log: WindowLog;
}

/** Settles when it has ended soon after its start; later ends are noticed by the connection. */
export function startRecorder(
  program: RecorderProgram,
  { archivePath, logPath, compiledFolder, log }: StartOptions,
): Promise<void> {
  const errorOutput = openLog(logPath);
  try {
    const child = spawn(program.command, [...program.args, '--archive', archivePath], {
      detached: true,
      stdio: ['ignore', 'ignore', errorOutput],
      env: { NODE_COMPILE_CACHE: compiledFolder, ...process.env, ...program.environment },
      windowsHide: true,
    });
    child.unref();
    log.note(`recorder is being started for ${archivePath}`);
    return new Promise((resolve) => {
      child.once('error', (error) => {
        log.note(`recorder could not be started: ${error.message}`);
        resolve();
      });
      child.once('exit', (code, signal) => {
        log.note(`recorder ended (${signal ?? code ?? ''}); see recorder.log`);
        resolve();
      });
    });
  } finally {
    if (typeof errorOutput === 'number') closeSync(errorOutput);
  }
}

function openLog(path: string): number | 'ignore' {
  try {
    mkdirSync(dirname(path), { recursive: true });
    const isLarge = (statSync(path, { throwIfNoEntry: false })?.size ?? 0) > LOG_BYTES_MAX;
    return openSync(path, isLarge ? 'w' : 'a');
  } catch {
    return 'ignore';
  }
}
