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
        await page.waitForTimeout(500);
        await page.screenshot({ path: join(FOLDER, `${name}-${theme}.png`) });
        say(`${name}-${theme}.png`);
      }
    };
    try {
      await recorderAnswers(page);
      await enterSpecimen(page);
      await takeBoth('specimen');
      await listenToSimulatedFrame(page);
      await makeReady(page);
      await stateIs(page, ['pulling']);
      await page.waitForTimeout(PULLING_MS);
      await takeBoth('pull');
      await stateIs(page, ['ended']);
      await noteFracture(page, 'Base metal');
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
