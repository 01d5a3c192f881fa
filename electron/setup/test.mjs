/**
 * `npm test`: sets up what is missing, then checks everything, in lanes that run at once, to the end even when a stage fails.
 * The last line is "N passed, N failed": every test counts as one, and so does every check that has no tests of its own.
 * Above it every test that was skipped is named (some need root, or a tool that is not here): it proved nothing in this run.
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
 */

/**
 * What is read of vitest's report.
 * @typedef {{ name: string, status: string, assertionResults: readonly { status: string, fullName: string }[] }} TestFile
 */

/** Twice what the longest takes on a slow machine with two cores; a stage that hangs must not hang the rest. */
const STAGE_MS_MAX = 40 * 60_000;

const VITEST = 'vitest/vitest.mjs';
/**
 * What only reads files.
 * @type {readonly Stage[]}
 */
const CHECKS = [
  { name: 'lint', program: 'oxlint/bin/oxlint', args: ['.'] },
  { name: 'types', program: 'typescript-7/bin/tsc', args: ['--noEmit'] },
  { name: 'format', program: 'oxfmt/bin/oxfmt', args: ['--check', '.'] },
  {
    name: 'import rule',
    program: 'dependency-cruiser/bin/dependency-cruise.mjs',
    args: ['--config', '.dependency-cruiser.cjs', 'core', 'drivers', 'electron', 'renderer'],
  },
];
/** @param {string} name @param {string} project of vitest.config.ts @returns {Stage} */
const tests = (name, project) => ({
  name,
  program: VITEST,
  args: ['run', '--project', project],
  countsTests: true,
});
/**
 * Both begin at once; in each, stage follows stage. The first shows what it does; what the other has to say comes when it
 * has ended.
 * @type {readonly (readonly Stage[])[]}
 */
const LANES = [
  [
    tests('unit tests', 'unit'),
    tests('published values', 'published'),
    ...CHECKS,
    tests('port tests', 'port'),
  ],
  [tests('window tests', 'window')],
];
/** Windows that are open at a time, each on a display of its own. */
const WINDOWS_AT_ONCE = 2;

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { prepare } = await import('./prepare.mjs');
    const prepared = await prepare({ say, forTests: true, alwaysInMemory: true });
    const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
    // Beside the display on which port tests print. Where all windows share one screen, the lanes run one after the other, and so do the windows.
    const displays = prepared.inMemory
      ? await Promise.all(Array.from({ length: WINDOWS_AT_ONCE }, startDisplay))
      : null;
    try {
      const env = {
        ...prepared.environment,
        GAUGEMARK_ELECTRON: prepared.electron,
        // Thousands of processes and threads start here: each module is made ready once.
        NODE_COMPILE_CACHE: join(scratch, 'compiled'),
        ...(displays === null
          ? {}
          : { GAUGEMARK_DISPLAYS: displays.map(({ display }) => display).join(' ') }),
      };
      return await runLanes(say, scratch, env, displays !== null);
    } finally {
      for (const { stop } of displays ?? []) stop();
      prepared.end();
      rmSync(scratch, { recursive: true, force: true });
    }
  },
});

/**
 * @param {(line: string) => void} say
 * @param {string} scratch
 * @param {NodeJS.ProcessEnv} env
 * @param {boolean} atOnce all lanes; otherwise one after the other
 * @returns {Promise<number>}
 */
async function runLanes(say, scratch, env, atOnce) {
  const total = { passed: 0, failed: 0 };
  /** @type {string[]} */
  const allSkipped = [];
  /** @type {string[]} */
  const lines = [];
  /** @param {Stage} stage @param {Outcome} outcome */
  const told = (stage, { passed, failed, seconds, text, failures, skipped }) => {
    if (text !== '') process.stdout.write(text);
    const left = skipped.length === 0 ? '' : `, ${skipped.length} skipped`;
    const counts = stage.countsTests === true ? `, ${passed} passed, ${failed} failed${left}` : '';
    const word = failed === 0 ? 'ok' : 'FAILED';
    lines.push(`${word.padEnd(6)}  ${stage.name.padEnd(18)} ${seconds.toFixed(1).padStart(6)} s${counts}`);
    say(lines.at(-1) ?? '');
    lines.push(...failures.map((name) => `        ${name}`));
    allSkipped.push(...skipped);
    total.passed += passed;
    total.failed += failed;
  };

  const [shown = [], ...others] = LANES;
  const names = others.flat().map(({ name }) => name);
  if (atOnce) say(`Beside what is shown here: ${names.join(', ')}.`);
  /** @param {readonly Stage[]} lane @param {number} index */
  const runCaptured = async (lane, index) => {
    /** @type {[Stage, Outcome][]} */
    const outcomes = [];
    const report = join(scratch, `report-${index + 1}.json`);
    for (const stage of lane)
      outcomes.push([stage, await runStage(stage, env, { output: 'capture', report })]);
    return outcomes;
  };
  const begun = atOnce ? others.map(runCaptured) : null;
  for (const stage of shown) {
    say(`\n── ${stage.name}`);
    const report = join(scratch, 'report.json');
    told(stage, await runStage(stage, env, { output: 'show', report }));
  }
  for (const [index, lane] of others.entries())
    for (const [stage, outcome] of await (begun?.[index] ?? runCaptured(lane, index))) told(stage, outcome);
  say(`\n${lines.join('\n')}\n`);
  if (allSkipped.length > 0)
    say(
      `${allSkipped.length} skipped, not proved here:\n${allSkipped.map((name) => `  ${name}`).join('\n')}\n`,
    );
  say(`${total.passed} passed, ${total.failed} failed`);
  return total.failed === 0 ? 0 : 1;
}

/**
 * @typedef {object} Outcome
 * @property {number} passed
 * @property {number} failed
 * @property {number} seconds
 * @property {string} text what it wrote, when kept back and it failed
 * @property {readonly string[]} failures the failed tests by name
 * @property {readonly string[]} skipped those that were not made, by name
 */

/**
 * @param {Stage} stage
 * @param {NodeJS.ProcessEnv} env
 * @param {{ output: 'show' | 'capture', report: string }} how report: where vitest writes its own; checks write none
 * @returns {Promise<Outcome>}
 */
async function runStage({ name, program, args, countsTests }, env, { output, report }) {
  const begun = performance.now();
  rmSync(report, { force: true });
  const counted = countsTests === true ? report : null;
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
    return {
      passed: code === 0 ? 1 : 0,
      failed: code === 0 ? 0 : 1,
      seconds,
      text: kept,
      failures: [],
      skipped: [],
    };
  const { passed, failed, failures, skipped } = countsIn(counted);
  // A file that can't even be loaded, or a run that ended early, has no failed test of its own and is a failure.
  return {
    passed,
    failed: code === 0 ? failed : Math.max(1, failed),
    seconds,
    text: kept,
    failures,
    skipped,
  };
}

/**
 * @param {string} report
 * @returns {{ passed: number, failed: number, failures: readonly string[], skipped: readonly string[] }} failures and skipped: tests by name
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
    const skipped = testResults.flatMap(({ name, assertionResults }) =>
      assertionResults
        .filter(({ status }) => !['passed', 'failed'].includes(status))
        .map(({ fullName }) => `${relative(projectFolder, name)}: ${fullName}`),
    );
    return { passed: numPassedTests, failed: numFailedTests, failures, skipped };
  } catch {
    return { passed: 0, failed: 1, failures: [], skipped: [] };
  }
}
