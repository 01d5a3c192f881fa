/** The Electron that the window runs on: the official one, or a fallback where that can't be fetched. */
import { existsSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { SetupFault } from './dependencies.mjs';
import { ensureFallbackElectron, fallbackIsPossible, FALLBACK_VERSION } from './electron-fallback.mjs';
import { cacheFolder, modulesFolder, pinnedNode } from './places.mjs';
import { runProcess } from './run-process.mjs';

/** The official binary is some 110 MB; a line that needs longer than this gets the fallback. */
const DOWNLOAD_MS_MAX = 5 * 60_000;
/** A machine that could not fetch it tries again after this time, not at every start. */
const TRY_AGAIN_MS = 12 * 3_600_000;

const electronFolder = join(modulesFolder, 'electron');

/**
 * @typedef {object} ElectronFound
 * @property {string} executablePath
 * @property {'official' | 'fallback'} kind
 */

/**
 * @param {(line: string) => void} say
 * @returns {Promise<ElectronFound>}
 */
export async function ensureElectron(say) {
  const official = await officialElectron(say);
  if (official !== null) return { executablePath: official, kind: 'official' };
  if (!fallbackIsPossible()) {
    rmSync(failureNote(), { force: true });
    throw new SetupFault(
      "Electron's own binary can't be fetched from here, and there is no fallback for this system. " +
        'Nothing else was changed. Allow its download (npx install-electron shows the reason) and run the same command again.',
    );
  }
  return { executablePath: await ensureFallbackElectron(say), kind: 'fallback' };
}

/** For whoever opens a window with it. */
export const FALLBACK_NOTE =
  `Note: Electron's own binary can't be fetched here, so an Electron ${FALLBACK_VERSION} from the package registry ` +
  'stands in. It is for development and test machines only; packages for users never contain it.';

/**
 * @param {(line: string) => void} say
 * @returns {Promise<string | null>} path of the executable; null where it can't be fetched
 */
export async function officialElectron(say) {
  const there = officialBinary();
  if (there !== null || triedLately()) return there;
  say('Fetching Electron (once per machine).');
  const fetched = await fetchOfficial();
  if (fetched === null) noteFailure();
  return fetched;
}

/** @returns {string | null} */
function officialBinary() {
  const note = join(electronFolder, 'path.txt');
  if (!existsSync(note)) return null;
  const binary = join(electronFolder, 'dist', readFileSync(note, 'utf8').trim());
  return existsSync(binary) ? binary : null;
}

/** @returns {Promise<string | null>} */
async function fetchOfficial() {
  const env = { ...process.env };
  delete env['ELECTRON_OVERRIDE_DIST_PATH'];
  const { code } = await runProcess(pinnedNode, [join(electronFolder, 'install.js')], {
    output: 'capture',
    env,
    limitMs: DOWNLOAD_MS_MAX,
  });
  return code === 0 ? officialBinary() : null;
}

/** The version is in its name: another Electron is another try. */
function failureNote() {
  /** @type {unknown} */
  const manifest = JSON.parse(readFileSync(join(electronFolder, 'package.json'), 'utf8'));
  const { version } = /** @type {{ version: string }} */ (manifest);
  return join(cacheFolder(), `electron-${version}-could-not-be-fetched`);
}

function triedLately() {
  try {
    return Date.now() - statSync(failureNote()).mtimeMs < TRY_AGAIN_MS;
  } catch {
    return false;
  }
}

function noteFailure() {
  writeFileSync(
    failureNote(),
    'The official Electron could not be fetched. Delete this file to try again at once.\n',
  );
}
