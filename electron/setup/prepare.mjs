/** What comes before a window, seen or not: system packages, Electron, the bundles, and a display where there is none. */
import { BUILT, build } from './build.mjs';
import { hasDisplay, startDisplay } from './display.mjs';
import { FALLBACK_NOTE, ensureElectron } from './electron-binary.mjs';
import { pinnedNode } from './places.mjs';
import { ensureSystemPackages } from './system-packages.mjs';

/** A display in memory is there in tenths of a second; a wait that is longer is told. */
const DISPLAY_TOLD_AFTER_MS = 3_000;

/**
 * @typedef {object} Prepared
 * @property {string} electron path of the executable
 * @property {NodeJS.ProcessEnv} environment for whatever opens the window
 * @property {boolean} inMemory windows are shown on a display in memory
 * @property {() => void} end stops the display, if one was started
 */

/**
 * @param {object} options
 * @param {(line: string) => void} options.say
 * @param {boolean} [options.forTests]
 * @param {boolean} [options.alwaysInMemory] a display in memory even where there is a screen
 * @param {boolean} [options.unseen] nobody is to see the window: only what is fetched, installed, built or slow is told
 * @returns {Promise<Prepared>}
 */
export async function prepare({ say, forTests = false, alwaysInMemory = false, unseen = false }) {
  const inMemory = process.platform === 'linux' && (alwaysInMemory || !hasDisplay());
  await ensureSystemPackages({ say, withoutScreen: inMemory, forTests });
  const { executablePath, kind } = await ensureElectron(say);
  if (kind === 'fallback' && !unseen) say(FALLBACK_NOTE);
  if (await build()) say(BUILT);
  const display = inMemory ? await displayInMemory(say) : null;
  /** @type {NodeJS.ProcessEnv} */
  const environment = { ...process.env, GAUGEMARK_NODE: pinnedNode };
  if (display !== null) {
    if (!unseen) say(`There is no screen here: using a display in memory (${display.display}).`);
    environment['DISPLAY'] = display.display;
    delete environment['WAYLAND_DISPLAY'];
  }
  return { electron: executablePath, environment, inMemory, end: () => display?.stop() };
}

/** @param {(line: string) => void} say */
async function displayInMemory(say) {
  const slow = setTimeout(
    () => say('Starting a display in memory, which takes long.'),
    DISPLAY_TOLD_AFTER_MS,
  );
  try {
    return await startDisplay();
  } finally {
    clearTimeout(slow);
  }
}
