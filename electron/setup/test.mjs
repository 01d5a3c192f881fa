/**
 * `npm test`: sets up what is missing, then checks everything, stage after stage, to the end even when one fails.
 * The last line is "N passed, N failed": every test counts as one, and so does every check that has no tests of its own.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { startDisplay } from './display.mjs';
import { onPinnedNode } from './on-pinned-node.mjs';
import { modulesFolder, pinnedNode, projectFolder } from './places.mjs';
import { runProcess } from './run-process.mjs';

/**
 * @typedef {object} Stage
 * @property {string} name
 * @property {string} program file under node_modules
 * @property {readonly string[]} args
 * @property {boolean} [countsTests] runs vitest
 * @property {Stage} [beside] begins with it, on a display of its own, and goes on beside what follows; what it has to say
 *   comes at the end
 */

/**
 * What is read of vitest's report.
 * @typedef {{ name: string, status: string, assertionResults: readonly { status: string, fullName: string }[] }} TestFile
 */

/** Nothing here takes half of it; a stage that hangs must not hang the rest. */
const STAGE_MS_MAX = 12 * 60_000;

const VITEST = 'vitest/vitest.mjs';
/**
 * They only read files: one after the other beside the tests, like any of them.
 * @type {readonly Stage[]}
 */
const CHECKS = [
  { name: 'lint', program: 'eslint/bin/eslint.js', args: ['.'] },
  { name: 'types', program: 'typescript/bin/tsc', args: ['--noEmit'] },
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
];
/** @type {readonly Stage[]} */
const TESTS = [
  { name: 'unit tests', program: VITEST, args: ['run', '--project', 'unit'], countsTests: true },
  { name: 'published values', program: VITEST, args: ['run', '--project', 'published'], countsTests: true },
  {
    name: 'port tests',
    program: VITEST,
    args: ['run', '--project', 'port'],
    countsTests: true,
    beside: {
      name: 'windows beside',
      program: VITEST,
      args: ['run', '--project', 'window-beside'],
      countsTests: true,
    },
  },
  {
    name: 'window tests',
    program: VITEST,
    args: ['run', '--project', 'window'],
    countsTests: true,
  },
];

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { prepare } = await import('./prepare.mjs');
    const prepared = await prepare({ say, forTests: true, alwaysInMemory: true });
    const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
    // A window that opens or closes above another one takes from it the pointer that holds a button. Where all windows
    // share one screen, they are opened one after the other.
    const besideDisplay = prepared.inMemory ? await startDisplay() : null;
    try {
      const env = {
        ...prepared.environment,
        GAUGEMARK_ELECTRON: prepared.electron,
        // Thousands of processes and threads start here: each module is made ready once.
        NODE_COMPILE_CACHE: join(scratch, 'compiled'),
      };
      const besideEnv = besideDisplay === null ? null : { ...env, DISPLAY: besideDisplay.display };
      return await runStages(say, scratch, env, besideEnv);
    } finally {
      besideDisplay?.stop();
      prepared.end();
      rmSync(scratch, { recursive: true, force: true });
    }
  },
});

/**
 * @param {(line: string) => void} say
 * @param {string} scratch
 * @param {NodeJS.ProcessEnv} env
 * @param {NodeJS.ProcessEnv | null} besideEnv of what runs beside; null: it runs afterwards
 * @returns {Promise<number>}
 */
async function runStages(say, scratch, env, besideEnv) {
  const total = { passed: 0, failed: 0 };
  /** @type {string[]} */
  const lines = [];
  /** @param {Stage} stage @param {Outcome} outcome */
  const told = (stage, { passed, failed, seconds, text, failures }) => {
    if (text !== '') process.stdout.write(text);
    const tests = stage.countsTests === true ? `, ${passed} passed, ${failed} failed` : '';
    const word = failed === 0 ? 'ok' : 'FAILED';
    lines.push(`${word.padEnd(6)}  ${stage.name.padEnd(18)} ${seconds.toFixed(1).padStart(6)} s${tests}`);
    say(lines.at(-1) ?? '');
    lines.push(...failures.map((name) => `        ${name}`));
    total.passed += passed;
    total.failed += failed;
  };

  say(`Beside the tests: ${CHECKS.map(({ name }) => name).join(', ')}.`);
  const checks = runChecks(env, told);
  /** @param {Stage} stage @param {NodeJS.ProcessEnv} where */
  const runAside = (stage, where) =>
    runStage(stage, where, { output: 'capture', report: join(scratch, 'beside.json') });
  /** @type {[Stage, Promise<Outcome> | null][]} */
  const aside = [];
  for (const { beside, ...stage } of TESTS) {
    // Where there is one screen for all, its windows come after those of the other stages.
    if (beside !== undefined) aside.push([beside, besideEnv === null ? null : runAside(beside, besideEnv)]);
    say(`\n── ${stage.name}`);
    told(stage, await runStage(stage, env, { output: 'show', report: join(scratch, 'report.json') }));
  }
  await checks;
  for (const [stage, begun] of aside) told(stage, await (begun ?? runAside(stage, env)));
  say(`\n${lines.join('\n')}\n`);
  say(`${total.passed} passed, ${total.failed} failed`);
  return total.failed === 0 ? 0 : 1;
}

/**
 * @typedef {object} Outcome
 * @property {number} passed
 * @property {number} failed
 * @property {number} seconds
 * @property {string} text what it wrote, when kept back
 * @property {readonly string[]} failures the failed tests by name
 */

/**
 * What they have to say is kept back until they have ended, so that it doesn't mix.
 * @param {NodeJS.ProcessEnv} env
 * @param {(check: Stage, outcome: Outcome) => void} told
 */
async function runChecks(env, told) {
  for (const check of CHECKS) told(check, await runStage(check, env, { output: 'capture' }));
}

/**
 * @param {Stage} stage
 * @param {NodeJS.ProcessEnv} env
 * @param {{ output: 'show' | 'capture', report?: string }} how report: where vitest writes its own; checks have none
 * @returns {Promise<Outcome>}
 */
async function runStage({ name, program, args, countsTests }, env, { output, report }) {
  const begun = performance.now();
  if (report !== undefined) rmSync(report, { force: true });
  const counted = countsTests === true && report !== undefined ? report : null;
  const reporters =
    counted === null ? [] : ['--reporter=default', '--reporter=json', `--outputFile.json=${counted}`];
  const { code, timedOut, text } = await runProcess(
    pinnedNode,
    [join(modulesFolder, program), ...args, ...reporters],
    {
      cwd: projectFolder,
      env,
      output,
      limitMs: STAGE_MS_MAX,
    },
  );
  const seconds = (performance.now() - begun) / 1000;
  if (timedOut) process.stdout.write(`The stage "${name}" took too long and was ended.\n`);
  // Of what went well its line in the summary is enough.
  const kept = code === 0 ? '' : text;
  if (counted === null)
    return { passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, seconds, text: kept, failures: [] };
  const { passed, failed, failures } = countsIn(counted);
  // A file that can't even be loaded, or a run that ended early, has no failed test of its own and is a failure.
  return { passed, failed: code === 0 ? failed : Math.max(1, failed), seconds, text: kept, failures };
}

/**
 * @param {string} report
 * @returns {{ passed: number, failed: number, failures: readonly string[] }} failures: the failed tests by name
 */
function countsIn(report) {
  try {
    /** @type {unknown} */
    const parsed = JSON.parse(readFileSync(report, 'utf8'));
    const { numPassedTests, numFailedTests, testResults } =
      /** @type {{ numPassedTests: number, numFailedTests: number, testResults: readonly TestFile[] }} */ (
        parsed
      );
    const failures = testResults.flatMap(({ name, status, assertionResults }) => {
      const failed = assertionResults.filter((test) => test.status === 'failed');
      const file = relative(projectFolder, name);
      if (failed.length === 0 && status === 'failed') return [file];
      return failed.map((test) => `${file}: ${test.fullName}`);
    });
    return { passed: numPassedTests, failed: numFailedTests, failures };
  } catch {
    return { passed: 0, failed: 1, failures: [] };
  }
}
