/** Starts the real window under the test driver, with folders of its own, and ends what belongs to it. */
import { join } from 'node:path';
import { isRoot, projectFolder } from './places.mjs';

/** A first start on a busy machine of two cores takes some ten seconds. */
const START_MS_MAX = 60_000;
const END_MS_MAX = 10_000;
/** The debugger can forget the answer of a call that it has made. */
const ANSWER_FORGOTTEN = /promise was garbage collected/;

/**
 * @param {object} options
 * @param {string} options.electron
 * @param {NodeJS.ProcessEnv} options.environment
 * @param {string} options.folder holds the window's settings
 * @param {string} options.archive
 * @param {readonly string[]} [options.args]
 */
export async function launchWindow({ electron, environment, folder, archive, args = [] }) {
  const app = await launched({
    executablePath: electron,
    chromiumSandbox: !isRoot,
    args: [
      '-r',
      join(projectFolder, 'electron/setup/wait-for-driver.cjs'),
      `--user-data-dir=${join(folder, 'settings')}`,
      projectFolder,
      '--archive',
      archive,
      ...args,
    ],
    env: /** @type {Record<string, string>} */ (environment),
    // The driver would otherwise hold the page light, whatever the program says.
    colorScheme: null,
    timeout: START_MS_MAX,
  });
  const page = await app.firstWindow({ timeout: START_MS_MAX });
  await page.waitForLoadState('domcontentloaded');
  // The page is there before the program behind it has been read: whoever drives it begins when both are.
  await page.evaluate(() => {
    const { gaugemark } =
      /** @type {{ gaugemark: { request: (name: string, payload: object) => Promise<unknown> } }} */ (
        /** @type {unknown} */ (globalThis)
      );
    return gaugemark.request('window.info', {});
  });
  askAgain(app);
  return { app, page };
}

/**
 * Whatever is asked of the main process is asked once more where its answer was forgotten: what a dialog is to answer, how
 * large a window is. What must not happen twice marks itself, as a press in the menu does.
 * @param {import('playwright').ElectronApplication} app
 */
function askAgain(app) {
  const evaluate = /** @type {(...given: readonly unknown[]) => Promise<unknown>} */ (
    /** @type {unknown} */ (app.evaluate.bind(app))
  );
  /** @param {readonly unknown[]} given */
  const asked = async (...given) => {
    try {
      return await evaluate(...given);
    } catch (error) {
      if (error instanceof Error && ANSWER_FORGOTTEN.test(error.message)) return evaluate(...given);
      throw error;
    }
  };
  app.evaluate = /** @type {typeof app.evaluate} */ (asked);
}

/**
 * On a machine that is busy beyond measure the driver can give up on a program that runs: a second launch comes through.
 * @param {NonNullable<Parameters<import('playwright').Electron['launch']>[0]>} options
 */
async function launched(options) {
  const { _electron, errors } = await import('playwright');
  try {
    return await _electron.launch(options);
  } catch (error) {
    if (!(error instanceof errors.TimeoutError)) throw error;
    return _electron.launch(options);
  }
}

/**
 * Ends the window as a shut-down of the computer would: without the question whether a pull may be left alone.
 * @param {import('playwright').ElectronApplication} app
 */
export async function endWindow(app) {
  const main = app.process();
  const ended = new Promise((resolve) => main.once('exit', resolve));
  if (main.exitCode !== null || main.signalCode !== null) return;
  main.kill('SIGTERM');
  const limit = setTimeout(() => main.kill('SIGKILL'), END_MS_MAX);
  await ended;
  clearTimeout(limit);
}
