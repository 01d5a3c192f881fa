/**
 * electron-builder, installed beside the project only when a package is made: its three hundred packages would
 * lengthen every set-up for what few people do.
 */
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { SetupFault, runNpm } from '../setup/dependencies.mjs';
import { pinnedNode } from '../setup/places.mjs';
import { runProcess } from '../setup/run-process.mjs';
import { readJson } from './json-file.mjs';

const FOLDER = fileURLToPath(new URL('packager', import.meta.url));
const LIBRARY = 'electron-builder';
const PACK_MS_MAX = 20 * 60_000;

/**
 * The part of electron-builder's configuration that is used here.
 * @typedef {Readonly<Record<string, unknown>> & { readonly electronFuses: Readonly<Record<string, boolean>> }} BuilderConfiguration
 */

/** @param {(line: string) => void} say */
export async function ensurePackager(say) {
  if (installedVersion() === wantedVersion()) return;
  say('Installing the packager (electron-builder; once).');
  const done = await runNpm(
    ['ci', '--no-audit', '--no-fund', '--ignore-scripts', '--loglevel=error'],
    'show',
    FOLDER,
  );
  if (done.code !== 0)
    throw new SetupFault(
      'The packager could not be installed; npm says why above. No package was made. ' +
        'Check that the package registry can be reached and run the same command again.',
    );
}

/**
 * @param {object} options
 * @param {string} options.configurationFile
 * @param {readonly string[]} options.targets electron-builder's own arguments, such as `--linux`
 * @returns {Promise<{ ok: boolean, text: string }>}
 */
export async function pack({ configurationFile, targets }) {
  const cli = createRequire(join(FOLDER, 'package.json')).resolve(`${LIBRARY}/cli.js`);
  const { code, text } = await runProcess(
    pinnedNode,
    [cli, '--config', configurationFile, '--publish', 'never', ...targets],
    { cwd: FOLDER, output: 'capture', limitMs: PACK_MS_MAX },
  );
  return { ok: code === 0, text };
}

function wantedVersion() {
  return versionIn(join(FOLDER, 'package.json'), 'devDependencies');
}

/** @returns {string | null} */
function installedVersion() {
  const file = join(FOLDER, 'node_modules', LIBRARY, 'package.json');
  return existsSync(file) ? versionIn(file, 'version') : null;
}

/**
 * @param {string} file
 * @param {'version' | 'devDependencies'} field
 * @returns {string | null}
 */
function versionIn(file, field) {
  const manifest = /** @type {{ version?: string, devDependencies?: Record<string, string> }} */ (
    readJson(file)
  );
  return (field === 'version' ? manifest.version : manifest.devDependencies?.[LIBRARY]) ?? null;
}
