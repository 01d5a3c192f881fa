/** A display in memory (Xvfb) for machines without a screen. */
import { spawn } from 'node:child_process';
import { SetupFault } from './dependencies.mjs';

/** Xvfb answers within a second even on a busy machine. */
const START_MS_MAX = 30_000;
/** Large enough for the window's natural size with room around it. */
const SCREEN = '1600x1000x24';

/** @returns {boolean} whether a window can be shown without further ado */
export function hasDisplay() {
  if (process.platform !== 'linux') return true;
  return (process.env['DISPLAY'] ?? '') !== '' || (process.env['WAYLAND_DISPLAY'] ?? '') !== '';
}

/**
 * Starts Xvfb on a display that is free; it chooses the number itself, so two at once don't meet.
 * @returns {Promise<{ display: string, stop: () => void }>}
 */
export function startDisplay() {
  return new Promise((resolve, reject) => {
    // Without -noreset it begins anew whenever its last window has gone, and a window that comes just then finds none.
    const args = ['-displayfd', '3', '-screen', '0', SCREEN, '-nolisten', 'tcp', '-noreset'];
    const child = spawn('Xvfb', args, {
      stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
    });
    const stop = () => void child.kill('SIGTERM');
    process.once('exit', stop);
    let complaint = '';
    child.stderr?.setEncoding('utf8').on('data', (/** @type {string} */ text) => {
      complaint = (complaint + text).slice(-2_000);
    });
    /** @param {string} reason */
    const fail = (reason) => {
      clearTimeout(limit);
      stop();
      reject(new SetupFault(`No display could be started (Xvfb): ${reason}. Nothing was changed.`));
    };
    const limit = setTimeout(() => fail('it did not answer in time'), START_MS_MAX);
    child.once('error', (error) => fail(error.message));
    child.once('exit', (code) => fail(`it ended with code ${code ?? 'none'} ${complaint.trim()}`));
    let number = '';
    /** @type {import('node:stream').Readable} */ (child.stdio[3])
      .setEncoding('utf8')
      .on('data', (/** @type {string} */ text) => {
        number += text;
        if (!number.includes('\n')) return;
        clearTimeout(limit);
        child.removeAllListeners('exit');
        child.unref();
        resolve({ display: `:${number.trim()}`, stop });
      });
  });
}
