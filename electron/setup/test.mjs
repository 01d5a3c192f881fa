/**
 * `npm test`: sets up what is missing, then checks everything, stage after stage, to the end even when one fails.
 * The last line is "N passed, N failed": every test counts as one, and so does every check that has no tests of its own.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onPinnedNode } from './on-pinned-node.mjs';
import { modulesFolder, pinnedNode, projectFolder } from './places.mjs';
import { runProcess } from './run-process.mjs';

/**
 * @typedef {object} Stage
 * @property {string} name
 * @property {string} program file under node_modules
 * @property {readonly string[]} args
 * @property {boolean} [countsTests] runs vitest
 */

/** Nothing here takes half of it; a stage that hangs must not hang the rest. */
const STAGE_MS_MAX = 12 * 60_000;

const VITEST = 'vitest/vitest.mjs';
/** @type {readonly Stage[]} */
const STAGES = [
  { name: 'types', program: 'typescript/bin/tsc', args: ['--noEmit'] },
  { name: 'lint', program: 'eslint/bin/eslint.js', args: ['.'] },
  {
    name: 'format',
    program: 'prettier/bin/prettier.cjs',
    args: ['--check', '--log-level', 'warn', '.'],
  },
  {
    name: 'import rule',
    program: 'dependency-cruiser/bin/dependency-cruise.mjs',
    args: ['--config', '.dependency-cruiser.cjs', 'core', 'drivers', 'electron', 'renderer'],
  },
  { name: 'unit tests', program: VITEST, args: ['run', '--project', 'unit'], countsTests: true },
  { name: 'published values', program: VITEST, args: ['run', '--project', 'published'], countsTests: true },
  { name: 'window tests', program: VITEST, args: ['run', '--project', 'app'], countsTests: true },
];

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { prepare } = await import('./prepare.mjs');
    const prepared = await prepare({ say, forTests: true });
    const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
    try {
      return await runStages(say, scratch, {
        ...prepared.environment,
        GAUGEMARK_ELECTRON: prepared.electron,
      });
    } finally {
      prepared.end();
      rmSync(scratch, { recursive: true, force: true });
    }
  },
});

/**
 * @param {(line: string) => void} say
 * @param {string} scratch
 * @param {NodeJS.ProcessEnv} env
 * @returns {Promise<number>}
 */
async function runStages(say, scratch, env) {
  const total = { passed: 0, failed: 0 };
  /** @type {string[]} */
  const lines = [];
  for (const stage of STAGES) {
    say(`\n── ${stage.name}`);
    const begun = performance.now();
    const { passed, failed } = await runStage(stage, join(scratch, 'report.json'), env);
    const seconds = ((performance.now() - begun) / 1000).toFixed(1);
    const outcome = failed === 0 ? 'ok' : 'FAILED';
    const tests = stage.countsTests === true ? `, ${passed} passed, ${failed} failed` : '';
    lines.push(`${outcome.padEnd(6)}  ${stage.name.padEnd(18)} ${seconds.padStart(6)} s${tests}`);
    say(lines.at(-1) ?? '');
    total.passed += passed;
    total.failed += failed;
  }
  say(`\n${lines.join('\n')}\n`);
  say(`${total.passed} passed, ${total.failed} failed`);
  return total.failed === 0 ? 0 : 1;
}

/**
 * @param {Stage} stage
 * @param {string} report
 * @param {NodeJS.ProcessEnv} env
 */
async function runStage({ program, args, countsTests = false }, report, env) {
  rmSync(report, { force: true });
  const reporters = countsTests
    ? ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`]
    : [];
  const { code, timedOut } = await runProcess(
    pinnedNode,
    [join(modulesFolder, program), ...args, ...reporters],
    { cwd: projectFolder, env, limitMs: STAGE_MS_MAX },
  );
  if (timedOut) process.stdout.write('This stage took too long and was ended.\n');
  if (!countsTests) return code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
  const { passed, failed } = countsIn(report);
  // A file that can't even be loaded, or a run that ended early, has no failed test of its own and is a failure.
  return { passed, failed: code === 0 ? failed : Math.max(1, failed) };
}

/** @param {string} report */
function countsIn(report) {
  try {
    /** @type {unknown} */
    const parsed = JSON.parse(readFileSync(report, 'utf8'));
    const { numPassedTests, numFailedTests } =
      /** @type {{ numPassedTests: number, numFailedTests: number }} */ (parsed);
    return { passed: numPassedTests, failed: numFailedTests };
  } catch {
    return { passed: 0, failed: 1 };
  }
}
