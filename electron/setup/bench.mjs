/**
 * `npm run bench [-- part-of-a-name …] [--long]`: measures, one file of `tests/bench` after the other, alone on the
 * machine; each prints its table. A goal that is missed is marked; only what could not be measured is a failure.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { onPinnedNode } from './on-pinned-node.mjs';
import { pinnedNode, projectFolder } from './places.mjs';
import { runProcess } from './run-process.mjs';

/** Run when named: statistics of the results rather than speed, loads that take long, and what `durability` shows too. */
const ONLY_WHEN_NAMED = [
  'accuracy',
  'compressed-day',
  'fuzz',
  'many-pulls',
  'recognitions',
  'sync-calls',
  'window-flood',
  'window-frozen',
];

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
 * @param {readonly string[]} given parts of file names, none means all; and options that are passed on
 * @param {NodeJS.ProcessEnv} env
 * @returns {Promise<number>}
 */
async function runAll(say, given, env) {
  const options = given.filter((argument) => argument.startsWith('--'));
  const wanted = given.filter((argument) => !argument.startsWith('--'));
  const folder = join(projectFolder, 'tests', 'bench');
  const files = readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .filter((name) =>
      wanted.length === 0
        ? !ONLY_WHEN_NAMED.some((part) => name.includes(part))
        : wanted.some((part) => name.includes(part)),
    )
    .sort();
  let failed = 0;
  for (const name of files) {
    say(`\n── ${name.replace('.ts', '')}`);
    const { code } = await runProcess(pinnedNode, [join(folder, name), ...options], {
      cwd: projectFolder,
      env,
    });
    if (code !== 0) failed++;
  }
  if (files.length === 0) say('There is no such measurement in tests/bench.');
  if (failed > 0) say(`\n${failed} of ${files.length} measurements could not be made.`);
  return failed === 0 && files.length > 0 ? 0 : 1;
}
