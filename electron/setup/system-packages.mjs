/** What Electron and the tests need of a Debian-like system; other systems bring it or have no use for it. */
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { SetupFault } from './dependencies.mjs';
import { isRoot } from './places.mjs';
import { runProcess } from './run-process.mjs';

/** Shared libraries that Electron's binary is linked to or opens. */
const WINDOW_PACKAGES = [
  'libgtk-3-0',
  'libnss3',
  'libasound2',
  'libgbm1',
  'libxss1',
  'libatk-bridge2.0-0',
  'libxtst6',
];
/** A display in memory, for machines without a screen. */
const DISPLAY_PACKAGES = ['xvfb', 'xauth'];
/** Pairs of pseudo-terminals, which stand for serial ports in tests. */
const PORT_PACKAGES = ['socat'];
/** Reads a PDF back, to see what a certificate says. */
const READER_PACKAGES = ['poppler-utils'];
/** Reads an archive without any part of the program. */
const SQLITE_PACKAGES = ['sqlite3'];

const QUERY_MS_MAX = 30_000;
const INSTALL_MS_MAX = 15 * 60_000;

/**
 * @param {object} options
 * @param {(line: string) => void} options.say
 * @param {boolean} options.withoutScreen the window needs a display in memory
 * @param {boolean} options.forTests also what only tests need
 */
export async function ensureSystemPackages({ say, withoutScreen, forTests }) {
  if (process.platform !== 'linux' || !isOnPath('dpkg-query') || !isOnPath('apt-get')) return;
  const wanted = [
    ...WINDOW_PACKAGES,
    ...(withoutScreen || forTests ? DISPLAY_PACKAGES : []),
    ...(forTests ? [...PORT_PACKAGES, ...READER_PACKAGES, ...SQLITE_PACKAGES] : []),
  ];
  const missing = await missingOf(wanted);
  if (missing.length === 0) return;
  if (!isRoot) {
    throw new SetupFault(
      `System packages are missing that the window needs here: ${missing.join(' ')}.\n` +
        `Install them and run the same command again:  sudo apt-get install ${missing.join(' ')}`,
    );
  }
  say(`Installing system packages: ${missing.join(' ')}.`);
  await installAsRoot(missing);
}

/**
 * @param {readonly string[]} names
 * @returns {Promise<string[]>}
 */
async function missingOf(names) {
  // Newer releases add "t64" to the names of some libraries.
  const asked = names.flatMap((name) => [name, `${name}t64`]);
  const { text } = await runProcess(
    'dpkg-query',
    ['-W', '-f', '${Package} ${db:Status-Status}\n', ...asked],
    {
      output: 'capture',
      limitMs: QUERY_MS_MAX,
    },
  );
  const installed = new Set(
    text
      .split('\n')
      .map((line) => line.split(' '))
      .filter(([, status]) => status === 'installed')
      .map(([name]) => name),
  );
  return names.filter((name) => !installed.has(name) && !installed.has(`${name}t64`));
}

/** @param {readonly string[]} missing */
async function installAsRoot(missing) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const options = /** @type {const} */ ({ output: 'capture', env, limitMs: INSTALL_MS_MAX });
  const update = await runProcess('apt-get', ['update', '-qq'], options);
  const names = await Promise.all(missing.map(nameInThisRelease));
  const install = await runProcess(
    'apt-get',
    ['install', '-y', '-qq', '--no-install-recommends', ...names],
    options,
  );
  if (install.code === 0) return;
  throw new SetupFault(
    `System packages could not be installed: ${names.join(' ')}.\n` +
      `${lastLines(update.text)}${lastLines(install.text)}` +
      'Nothing of the project was changed. Install them by hand and run the same command again.',
  );
}

/**
 * @param {string} name
 * @returns {Promise<string>}
 */
async function nameInThisRelease(name) {
  const { text } = await runProcess('apt-cache', ['madison', `${name}t64`], {
    output: 'capture',
    limitMs: QUERY_MS_MAX,
  });
  return text.includes('|') ? `${name}t64` : name;
}

/** @param {string} text */
function lastLines(text) {
  return text
    .trim()
    .split('\n')
    .slice(-5)
    .map((line) => `  ${line}\n`)
    .join('');
}

/**
 * @param {string} program
 * @returns {boolean}
 */
export function isOnPath(program) {
  return (process.env['PATH'] ?? '')
    .split(delimiter)
    .some((folder) => folder !== '' && existsSync(join(folder, program)));
}
