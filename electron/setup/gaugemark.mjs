/** `npm run --silent gaugemark -- <verb> …`: the command line on the pinned Node, without Electron. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { endBySameSignal, onPinnedNode } from './on-pinned-node.mjs';
import { pinnedNode, projectFolder } from './places.mjs';
import { passSignals } from './run-process.mjs';

await onPinnedNode({
  script: import.meta.url,
  stdoutIsTaken: true,
  work: () =>
    new Promise((resolve) => {
      const program = join(projectFolder, 'electron', 'command-line', 'main.ts');
      // A process of its own, so that what it does at exit and on signals is its own business.
      const child = spawn(pinnedNode, [program, ...process.argv.slice(2)], { stdio: 'inherit' });
      passSignals(child);
      child.once('error', () => resolve(1));
      child.once('close', (code, signal) => {
        if (signal !== null) endBySameSignal(signal);
        resolve(code ?? 1);
      });
    }),
});
