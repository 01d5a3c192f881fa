/**
 * `npm start`: sets up what is missing and opens the window. Without a display (or with `--demonstration`) a whole
 * demonstration pull is made in the real window and its result printed. Other arguments go to the program:
 * `npm start -- --archive FILE --software-drawing`.
 */
import { spawn } from 'node:child_process';
import { hasDisplay } from './display.mjs';
import { onPinnedNode } from './on-pinned-node.mjs';
import { isRoot, projectFolder } from './places.mjs';
import { passSignals } from './run-process.mjs';

const DEMONSTRATION = '--demonstration';

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { prepare } = await import('./prepare.mjs');
    const args = process.argv.slice(2).filter((argument) => argument !== DEMONSTRATION);
    const demonstration = process.argv.includes(DEMONSTRATION) || !hasDisplay();
    const prepared = await prepare({ say });
    try {
      if (demonstration) {
        const { demonstrate } = await import('./demonstration.mjs');
        return await demonstrate({ ...prepared, say, args });
      }
      say('Opening the window.');
      return await openWindow({ ...prepared, args });
    } finally {
      prepared.end();
    }
  },
});

/**
 * @param {{ electron: string, environment: NodeJS.ProcessEnv, args: readonly string[] }} options
 * @returns {Promise<number>}
 */
function openWindow({ electron, environment, args }) {
  return new Promise((resolve) => {
    const child = spawn(electron, [...(isRoot ? ['--no-sandbox'] : []), projectFolder, ...args], {
      stdio: 'inherit',
      env: environment,
    });
    passSignals(child);
    child.once('error', (error) => {
      process.stderr.write(`The window could not be opened: ${error.message}\n`);
      resolve(1);
    });
    child.once('close', (code) => resolve(code ?? 1));
  });
}
