/** Runs one program to its end, with a time limit and the stop signals passed on. */
import { spawn } from 'node:child_process';

/** How long a program has to end after SIGTERM before it gets SIGKILL. */
const GRACE_MS = 5_000;
/** What is kept of a captured output; set-up tools say what went wrong in their last lines. */
const CAPTURED_CHARACTERS_MAX = 2_000_000;

/**
 * @typedef {object} RunOptions
 * @property {string} [cwd]
 * @property {NodeJS.ProcessEnv} [env]
 * @property {'show' | 'show-on-stderr' | 'capture'} [output] default: show
 * @property {number} [limitMs] after which it is ended and `timedOut` is true
 */

/**
 * @typedef {object} RunResult
 * @property {number} code 128 + signal number is not made up: a signal gives code 1 and its name
 * @property {NodeJS.Signals | null} signal
 * @property {boolean} timedOut
 * @property {string} text what it wrote, when captured
 * @property {string | null} startFault why it couldn't be started at all
 */

/**
 * Its standard input is always empty: set-up never asks anybody anything.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {RunOptions} [options]
 * @returns {Promise<RunResult>}
 */
export function runProcess(command, args, { cwd, env, output = 'show', limitMs } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd,
      env: env ?? process.env,
      stdio: ['ignore', ...outputs(output)],
      windowsHide: true,
    });
    let text = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream?.setEncoding('utf8');
      stream?.on('data', (/** @type {string} */ part) => {
        text = (text + part).slice(-CAPTURED_CHARACTERS_MAX);
      });
    }
    const stopPassing = passSignals(child);
    let timedOut = false;
    const limit =
      limitMs === undefined
        ? undefined
        : setTimeout(() => {
            timedOut = true;
            child.kill('SIGTERM');
            setTimeout(() => child.kill('SIGKILL'), GRACE_MS).unref();
          }, limitMs);
    /** @param {Omit<RunResult, 'timedOut' | 'text'>} end */
    const finish = (end) => {
      clearTimeout(limit);
      stopPassing();
      resolve({ ...end, timedOut, text });
    };
    child.once('error', (error) => finish({ code: 1, signal: null, startFault: error.message }));
    child.once('close', (code, signal) => finish({ code: code ?? 1, signal, startFault: null }));
  });
}

/**
 * @param {'show' | 'show-on-stderr' | 'capture'} output
 * @returns {[import('node:child_process').IOType | number, import('node:child_process').IOType | number]}
 */
function outputs(output) {
  if (output === 'capture') return ['pipe', 'pipe'];
  return output === 'show' ? ['inherit', 'inherit'] : [2, 'inherit'];
}

/**
 * A stop from outside reaches the child too. Ctrl-C at a terminal goes to the whole group by itself, and a second
 * one would look like impatience.
 * @param {import('node:child_process').ChildProcess} child
 * @returns {() => void} stops passing
 */
export function passSignals(child) {
  /** @type {NodeJS.Signals[]} */
  const names = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  /** @param {NodeJS.Signals} name */
  const pass = (name) => {
    if (name !== 'SIGINT' || !process.stdin.isTTY) child.kill(name);
  };
  for (const name of names) process.on(name, pass);
  return () => {
    for (const name of names) process.off(name, pass);
  };
}
