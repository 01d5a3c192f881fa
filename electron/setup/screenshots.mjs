/** `npm run screenshots`: the pictures of the README, taken in the real window during a real (simulated) pull. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
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
import { endWindow, launchWindow } from './launch-window.mjs';
import { onPinnedNode } from './on-pinned-node.mjs';
import { projectFolder } from './places.mjs';

const FOLDER = join(projectFolder, 'fixtures', 'screenshots');
/** The curve is past its yield point and still rising then. */
const PULLING_MS = 40_000;

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { prepare } = await import('./prepare.mjs');
    const prepared = await prepare({ say });
    const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-screenshots-'));
    mkdirSync(FOLDER, { recursive: true });
    const { app, page } = await launchWindow({
      ...prepared,
      folder: scratch,
      archive: join(scratch, 'pulls.gaugemark'),
    });
    /** @param {string} name */
    const takeBoth = async (name) => {
      for (const [theme, scheme] of /** @type {const} */ ([
        ['light', 'light'],
        ['dark', 'dark'],
      ])) {
        await page.emulateMedia({ colorScheme: scheme });
        // Neither a pointer on a plot nor a place further down belongs in the picture.
        await page.mouse.move(0, 0);
        await page.locator('main').evaluate((sheet) => sheet.scrollTo(0, 0));
        await page.waitForTimeout(500);
        await page.screenshot({ path: join(FOLDER, `${name}-${theme}.png`) });
        say(`${name}-${theme}.png`);
      }
    };
    try {
      await recorderAnswers(page);
      await page.getByRole('radio', { name: 'SI' }).check({ force: true });
      await enterSpecimen(page);
      await takeBoth('specimen');
      await listenToSimulatedFrame(page);
      await station(page, 'Readout').click();
      await takeBoth('readout');
      await station(page, 'Pull').click();
      await makeReady(page);
      await stateIs(page, ['pulling']);
      await page.waitForTimeout(PULLING_MS);
      await takeBoth('pull');
      await stateIs(page, ['broken']);
      await tailIsOver(page);
      await noteFracture(page, 'Base metal');
      await takeBoth('fracture');
      await station(page, 'Result').click();
      await page.waitForTimeout(1000);
      await takeBoth('result');
      return 0;
    } finally {
      await endWindow(app);
      prepared.end();
      rmSync(scratch, { recursive: true, force: true });
    }
  },
});
