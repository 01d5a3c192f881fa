/** `npm run bench`: measures, one file of `tests/bench` after the other, alone on the machine; each prints its table. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { onPinnedNode } from './on-pinned-node.mjs';
import { pinnedNode, projectFolder } from './places.mjs';
import { runProcess } from './run-process.mjs';

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { prepare } = await import('./prepare.mjs');
    const prepared = await prepare({ say, forTests: true });
    try {
      return await runAll(say, process.argv.slice(2), {
        ...prepared.environment,
        GAUGEMARK_ELECTRON: prepared.electron,
      });
    } finally {
      prepared.end();
    }
  },
});

/**
 * @param {(line: string) => void} say
 * @param {readonly string[]} wanted parts of file names; none means all
 * @param {NodeJS.ProcessEnv} env
 * @returns {Promise<number>}
 */
async function runAll(say, wanted, env) {
  const folder = join(projectFolder, 'tests', 'bench');
  const files = readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .filter((name) => wanted.length === 0 || wanted.some((part) => name.includes(part)))
    .sort();
  let failed = 0;
  for (const name of files) {
    say(`\n── ${name.replace('.ts', '')}`);
    const { code } = await runProcess(pinnedNode, [join(folder, name)], { cwd: projectFolder, env });
    if (code !== 0) failed++;
  }
  if (files.length === 0) say('There is no such measurement in tests/bench.');
  if (failed > 0) say(`\n${failed} of ${files.length} measurements could not be made.`);
  return failed === 0 && files.length > 0 ? 0 : 1;
}
