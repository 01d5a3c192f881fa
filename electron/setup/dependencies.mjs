/** The libraries: installed from the lock file when they are missing or of another state than it. */
import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { modulesFolder, pinnedNode, projectFolder } from './places.mjs';
import { runProcess } from './run-process.mjs';

/** A first install fetches some 300 packages; half an hour is a very slow line. */
const INSTALL_MS_MAX = 30 * 60_000;
/** Starting a Node that works takes far less. */
const NODE_CHECK_MS_MAX = 20_000;

/**
 * Makes sure that `node_modules` is what the lock file says, and that the pinned Node runs.
 * @param {{ say: (line: string) => void, stdoutIsTaken?: boolean }} options `stdoutIsTaken`: nothing may appear there
 */
export async function ensureDependencies({ say, stdoutIsTaken = false }) {
  const output = stdoutIsTaken ? 'show-on-stderr' : 'show';
  if (!dependenciesAreCurrent()) {
    say('Installing the libraries that package-lock.json names (npm ci).');
    const done = await runNpm(['ci', '--no-audit', '--no-fund', '--loglevel=error'], output);
    if (done.code !== 0) {
      throw new SetupFault(
        'The libraries could not be installed; npm says why above. Nothing else was changed. ' +
          'Check that the package registry can be reached and run the same command again.',
      );
    }
  }
  if (await pinnedNodeRuns()) return;
  say('Fetching the pinned Node (npm rebuild node).');
  await runNpm(['rebuild', 'node'], output);
  if (await pinnedNodeRuns()) return;
  throw new SetupFault(
    `The pinned Node (${pinnedNode}) does not run, so the program can't. ` +
      'Check that npm may run install scripts here (npm config get ignore-scripts), then run the same command again.',
  );
}

/**
 * Compares what npm noted in `node_modules` with the lock file, package by package: a time stamp says nothing
 * after a clone.
 * @returns {boolean}
 */
function dependenciesAreCurrent() {
  const noted = join(modulesFolder, '.package-lock.json');
  if (!existsSync(noted)) return false;
  const wanted = lockedPackages(join(projectFolder, 'package-lock.json'));
  const installed = lockedPackages(noted);
  return Object.entries(wanted).every(([place, entry]) => {
    const there = installed[place];
    // Optional packages for other systems are in the lock file and rightly not installed.
    return there === undefined ? place === '' || entry.optional === true : there.version === entry.version;
  });
}

/** @typedef {{ version?: string, optional?: boolean }} LockedPackage */

/**
 * @param {string} file
 * @returns {Record<string, LockedPackage>}
 */
function lockedPackages(file) {
  try {
    /** @type {unknown} */
    const parsed = JSON.parse(readFileSync(file, 'utf8'));
    const lock = /** @type {{ packages?: Record<string, LockedPackage> }} */ (parsed);
    return lock.packages ?? {};
  } catch {
    return {};
  }
}

async function pinnedNodeRuns() {
  if (!existsSync(pinnedNode)) return false;
  const { code } = await runProcess(pinnedNode, ['--version'], {
    output: 'capture',
    limitMs: NODE_CHECK_MS_MAX,
  });
  return code === 0;
}

/**
 * @param {readonly string[]} args
 * @param {'show' | 'show-on-stderr' | 'capture'} output
 * @param {string} [cwd]
 */
export function runNpm(args, output, cwd = projectFolder) {
  const started = process.env['npm_execpath'];
  // The npm that started this script, if one did: on Windows a bare "npm" is a shell script.
  const [command, first] =
    started !== undefined && basename(started).startsWith('npm-cli')
      ? [process.execPath, [started]]
      : [process.platform === 'win32' ? 'npm.cmd' : 'npm', []];
  return runProcess(command, [...first, ...args], { cwd, output, limitMs: INSTALL_MS_MAX });
}

/** Something on this machine stands in the way: one sentence says what, what is safe, what to do. */
export class SetupFault extends Error {
  /** @override */
  name = 'SetupFault';
}
