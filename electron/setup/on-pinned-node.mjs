/** A bare clone has nothing installed, and the machine's Node may be old: install, then go on with the pinned Node. */
import { spawn } from 'node:child_process';
import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ensureDependencies, SetupFault } from './dependencies.mjs';
import { pinnedNode } from './places.mjs';
import { passSignals } from './run-process.mjs';

/**
 * Runs `work` on the pinned Node with the libraries there. On any other Node the script is run again on the pinned
 * one, with the same arguments and the terminal handed through, and its exit code becomes ours.
 * @param {object} options
 * @param {string} options.script `import.meta.url` of the script
 * @param {boolean} [options.stdoutIsTaken] nothing but the work itself may write to standard output
 * @param {(say: (line: string) => void) => Promise<number>} options.work gives the exit code
 */
export async function onPinnedNode({ script, stdoutIsTaken = false, work }) {
  const stream = stdoutIsTaken ? process.stderr : process.stdout;
  /** @param {string} line */
  const say = (line) => void stream.write(`${line}\n`);
  try {
    await ensureDependencies({ say, stdoutIsTaken });
    process.exitCode = isPinned() ? await work(say) : await runAgain(script);
  } catch (error) {
    if (!(error instanceof SetupFault)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}

function isPinned() {
  return realpathSync(process.execPath) === realpathSync(pinnedNode);
}

/**
 * @param {string} script
 * @returns {Promise<number>}
 */
function runAgain(script) {
  return new Promise((resolve) => {
    const child = spawn(pinnedNode, [fileURLToPath(script), ...process.argv.slice(2)], { stdio: 'inherit' });
    passSignals(child);
    child.once('error', () => resolve(1));
    child.once('close', (code, signal) => {
      if (signal !== null) endBySameSignal(signal);
      resolve(code ?? 1);
    });
  });
}

/**
 * Whoever started us sees the same end as we saw.
 * @param {NodeJS.Signals} signal
 */
export function endBySameSignal(signal) {
  process.removeAllListeners(signal);
  process.kill(process.pid, signal);
}
