/**
 * `npm run screenshots`: the pictures of the README and of the guide, taken in the real window during a real (simulated)
 * pull; `-- --guide` those of the guide alone, in both languages. `-- --all FOLDER`: every view on every ground in three sizes, elsewhere; `-- --all --lost`: what is lost in them.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
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
import { chooseInMenu } from './all-views.mjs';
import { endWindow, launchWindow } from './launch-window.mjs';
import { onPinnedNode } from './on-pinned-node.mjs';
import { takeAllViews } from './pictures-of-views.mjs';
import { projectFolder } from './places.mjs';

const FOLDER = join(projectFolder, 'fixtures', 'screenshots');
/** Pictures of the guide, which are built into the page: the smallest window, so that they are read at the width of the sheet. */
const GUIDE_FOLDER = join(projectFolder, 'renderer', 'guide', 'pictures');
const GUIDE_SIZE = [1024, 700];
const USUAL_SIZE = [1360, 860];
/** The curve is past its yield point and still rising then. */
const PULLING_MS = 40_000;

/** @satisfies {import('../../core/contract/bridge.ts').PageRequestOf<'set.save'>['form']} */
const DEMONSTRATION_SET = /** @type {const} */ ({
  name: 'Hopper seam 12',
  purpose: 'production-coupon',
  // The simulated specimen is narrower than the codes ask for, by which its test would be questionable.
  rulePackId: 'shop-practice',
  baseMetals: [{ designation: 'plate of our own', minimum: '400 MPa' }],
  specimenType: 'transverse-flat',
  requiredCount: 1,
});

/** Pulled after the backup, its peak typed in: what a restore would take from the archive. */
const SECOND_SPECIMEN = /** @type {const} */ ({
  id: 'DEMO-2',
  geometry: { kind: 'flat', width: '12.47 mm', thickness: '6.11 mm' },
});

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { prepare } = await import('./prepare.mjs');
    const prepared = await prepare({ say });
    const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-screenshots-'));
    const { app, page } = await launchWindow({
      ...prepared,
      folder: scratch,
      archive: join(scratch, 'pulls.gaugemark'),
    });
    const given = process.argv.slice(2);
    /** @param {string} name */
    const takeBoth = async (name) => {
      if (given.includes('--guide')) return;
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
    /** @param {string} name */
    const takeForGuide = async (name) => {
      await sized(app, GUIDE_SIZE);
      await page.emulateMedia({ colorScheme: 'light' });
      await page.mouse.move(0, 0);
      await page.locator('main').evaluate((sheet) => sheet.scrollTo(0, 0));
      await page.waitForTimeout(500);
      // English last: what leads on is found by its English name.
      for (const [language, file] of /** @type {const} */ ([
        ['es', `${name}-es.png`],
        ['en', `${name}.png`],
      ])) {
        await chooseInMenu({ app }, `language-${language}`);
        await page.locator(`html[lang="${language}"]`).waitFor();
        // A certificate is put together anew for its other language.
        await page.waitForTimeout(2_000);
        await page.screenshot({ path: join(GUIDE_FOLDER, file) });
        say(file);
      }
      await sized(app, USUAL_SIZE);
    };
    try {
      await recorderAnswers(page);
      if (given.includes('--all')) return await takeAllViews({ app, page, scratch, given, say });
      mkdirSync(FOLDER, { recursive: true });
      await page.getByRole('radio', { name: 'SI' }).check({ force: true });
      await enterSpecimen(page);
      await takeBoth('specimen');
      await takeForGuide('measure');
      await listenToSimulatedFrame(page);
      await station(page, 'Readout').click();
      await takeBoth('readout');
      await takeForGuide('connect');
      await station(page, 'Pull').click();
      await makeReady(page);
      await stateIs(page, ['pulling']);
      await page.waitForTimeout(PULLING_MS);
      await takeBoth('pull');
      await takeForGuide('pull');
      await stateIs(page, ['broken']);
      await tailIsOver(page);
      await noteFracture(page, 'Base metal');
      await takeBoth('fracture');
      await station(page, 'Result').click();
      await page.waitForTimeout(1000);
      await takeBoth('result');
      await page.evaluate(putIntoSet, DEMONSTRATION_SET);
      await station(page, 'Set').click();
      await page.getByRole('button', { name: `Open ${DEMONSTRATION_SET.name}` }).click();
      await page.getByRole('region', { name: 'Specimens of the set' }).waitFor();
      await page.waitForTimeout(1000);
      await takeForGuide('judge');
      await station(page, 'Certificate').click();
      await page.getByRole('region', { name: 'What it says' }).waitFor();
      await takeForGuide('certify');
      const backup = join(scratch, 'pulls of this morning.gaugemark');
      await dialogsGive(app, backup);
      await page.evaluate(putBesideBackup, { suggestedName: basename(backup), specimen: SECOND_SPECIMEN });
      await page.getByRole('button', { name: 'Archive' }).click();
      await page.locator('#open-restore').click();
      await page.locator('#choose-backup').click();
      await page.locator('#restore-sure').waitFor();
      await takeForGuide('restore');
      return 0;
    } finally {
      await endWindow(app);
      prepared.end();
      rmSync(scratch, { recursive: true, force: true });
    }
  },
});

/**
 * @param {import('playwright').ElectronApplication} app
 * @param {readonly number[]} size
 */
async function sized(app, [width = 0, height = 0]) {
  await app.evaluate(
    ({ BrowserWindow }, [w, h]) =>
      BrowserWindow.getAllWindows()
        .find((one) => one.isVisible())
        ?.setContentSize(w ?? 0, h ?? 0),
    [width, height],
  );
}

/**
 * Every file that is asked for is this one.
 * @param {import('playwright').ElectronApplication} app
 * @param {string} path
 */
async function dialogsGive(app, path) {
  await app.evaluate(({ dialog }, its) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [its] });
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: its });
  }, path);
}

/**
 * Runs in the page: a backup, and then a pull that it does not hold.
 * @param {{ suggestedName: string, specimen: typeof SECOND_SPECIMEN }} given
 */
async function putBesideBackup({ suggestedName, specimen }) {
  await gaugemark.request('readout.close', {});
  const to = await gaugemark.request('window.choose-save-path', { kind: 'archive', suggestedName });
  if (!to.ok || to.value.path === null) throw new Error('No path for the backup.');
  const backedUp = await gaugemark.request('archive.backup', { to: to.value.path });
  if (!backedUp.ok) throw new Error(backedUp.fault.sentence);
  const saved = await gaugemark.request('specimen.save', { specimen });
  if (!saved.ok) throw new Error(saved.fault.sentence);
  const typed = await gaugemark.request('pull.type', {
    specimenId: saved.value.specimenId,
    typed: { load: '33.4 kN' },
  });
  if (!typed.ok) throw new Error(typed.fault.sentence);
}

/**
 * Runs in the page: the set of the pictures, with the laboratory of its certificate.
 * @param {typeof DEMONSTRATION_SET} form
 */
async function putIntoSet(form) {
  for (const answer of [
    await gaugemark.request('laboratory.save', { name: 'Quay 9 welding school', lines: ['Hall 4'] }),
    await gaugemark.request('set.save', { form }),
    await gaugemark.request('set.join', { setId: 1, specimenId: 1 }),
  ])
    if (!answer.ok) throw new Error(answer.fault.sentence);
}
