/** A whole pull in the real window, made by its own buttons: what a machine without a screen shows of the program. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import {
  enterSpecimen,
  listenToSimulatedFrame,
  makeReady,
  noteFracture,
  recorderAnswers,
  stateIs,
  station,
  tailIsOver,
} from './demonstration-pull.mjs';
import { resultLines } from './demonstration-result.mjs';
import { endWindow, launchWindow } from './launch-window.mjs';
import { projectFolder } from './places.mjs';

/**
 * @param {object} options
 * @param {string} options.electron
 * @param {NodeJS.ProcessEnv} options.environment
 * @param {(line: string) => void} options.say
 * @param {readonly string[]} options.args
 * @returns {Promise<number>} exit code
 */
export async function demonstrate({ electron, environment, say, args }) {
  const folder = freshFolder();
  const archive = join(folder, 'pulls.gaugemark');
  say(
    'Opening the window for a demonstration: one whole pull with the simulated frame, at true pace (a minute).',
  );
  const { app, page } = await launchWindow({ electron, environment, folder, archive, args });
  try {
    await recorderAnswers(page);
    await enterSpecimen(page);
    say('Specimen entered and kept.');
    await listenToSimulatedFrame(page);
    say('Listening to the simulated frame; nothing is recorded yet.');
    await makeReady(page);
    say('Ready: readings are being kept.');
    await stateIs(page, ['pulling', 'broken']);
    say('The load rises: the pull has started by itself.');
    await stateIs(page, ['broken']);
    say('The specimen has broken; what follows is still recorded.');
    await tailIsOver(page);
    const pullPicture = join(folder, 'pull.png');
    await page.screenshot({ path: pullPicture });
    await noteFracture(page, 'Base metal');
    await stateIs(page, ['ended']);
    say('Where it broke is noted, and the record put away with it.');
    await station(page, 'Result').click();
    await page.getByText('Rm', { exact: false }).first().waitFor();
    const resultPicture = join(folder, 'result.png');
    await page.screenshot({ path: resultPicture });
    say('');
    for (const line of await resultLines(page)) say(line);
    say('');
    say(`Archive:     ${archive}`);
    say(`Screenshots: ${pullPicture}`);
    say(`             ${resultPicture}`);
    return 0;
  } catch (error) {
    const picture = join(folder, 'where-it-stopped.png');
    await page.screenshot({ path: picture }).catch(() => undefined);
    say(
      `The demonstration did not come to its end: ${error instanceof Error ? error.message : String(error)}`,
    );
    say(`What the window showed then: ${picture}`);
    return 1;
  } finally {
    const recorder = await recorderPid(page);
    await endWindow(app);
    // It would end by itself after a while; a build machine need not wait for that.
    if (recorder !== null) process.kill(recorder, 'SIGTERM');
  }
}

/** Demonstrations never go into anybody's own archive. */
function freshFolder() {
  const time = new Date().toISOString().slice(0, 19).replaceAll(':', '-');
  const folder = join(projectFolder, 'out', `demonstration-${time}`);
  mkdirSync(folder, { recursive: true });
  return folder;
}

/** @param {import('playwright').Page} page */
async function recorderPid(page) {
  return page
    .evaluate(async () => {
      const answer = await gaugemark.request('program.info', {});
      return answer.ok ? answer.value.pid : null;
    })
    .catch(() => null);
}
