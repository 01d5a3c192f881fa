/** What both commands do first: system packages, Electron, the bundles, and a display where there is none. */
import { build } from './build.mjs';
import { hasDisplay, startDisplay } from './display.mjs';
import { ensureElectron } from './electron-binary.mjs';
import { pinnedNode } from './places.mjs';
import { ensureSystemPackages } from './system-packages.mjs';

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
 * @returns {Promise<Prepared>}
 */
export async function prepare({ say, forTests = false, alwaysInMemory = false }) {
  const inMemory = process.platform === 'linux' && (alwaysInMemory || !hasDisplay());
  await ensureSystemPackages({ say, withoutScreen: inMemory, forTests });
  const { executablePath } = await ensureElectron(say);
  await build(say);
  const display = inMemory ? await startDisplay() : null;
  /** @type {NodeJS.ProcessEnv} */
  const environment = { ...process.env, GAUGEMARK_NODE: pinnedNode };
  if (display !== null) {
    say(`There is no screen here: using a display in memory (${display.display}).`);
    environment['DISPLAY'] = display.display;
    delete environment['WAYLAND_DISPLAY'];
  }
  return { electron: executablePath, environment, inMemory, end: () => display?.stop() };
}
