/**
 * `npm run screenshots -- --all FOLDER`: every view of the window on each ground in three sizes, to be looked at by
 * people; outside the repository. `--ground=soot` and `--size=1024x700` take a part of them; `--language=es` takes them in
 * Spanish, `--zoom=2` at twice the size. `-- --all --lost` takes none and says what each view loses, by size of window.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { chooseInMenu, walkThroughViews } from './all-views.mjs';
import { lostIn } from './lost-in-view.mjs';
import { projectFolder } from './places.mjs';

const SIZES = /** @type {const} */ ([
  [1024, 700],
  [1366, 768],
  [1920, 1080],
]);
const GROUNDS = /** @type {const} */ ({
  chalk: { colorScheme: 'light', contrast: 'no-preference' },
  soot: { colorScheme: 'dark', contrast: 'no-preference' },
  contrast: { colorScheme: 'dark', contrast: 'more' },
});

/**
 * @param {object} options
 * @param {import('playwright').ElectronApplication} options.app
 * @param {import('playwright').Page} options.page
 * @param {string} options.scratch for the files that the views need
 * @param {readonly string[]} options.given what was typed behind `--`
 * @param {(line: string) => void} options.say
 * @returns {Promise<number>}
 */
export async function takeAllViews({ app, page, scratch, given, say }) {
  const isMeasured = given.includes('--lost');
  const named = given.find((one) => !one.startsWith('--'));
  const folder = isMeasured ? scratch : named === undefined ? null : resolve(named);
  if (folder === null || !relative(projectFolder, folder).startsWith('..')) {
    say('Name a folder outside the repository: npm run screenshots -- --all ../pictures');
    return 1;
  }
  const wanted = (/** @type {string} */ what) =>
    given.find((one) => one.startsWith(`--${what}=`))?.slice(what.length + 3);
  const sizes = SIZES.filter((size) => [undefined, size.join('x')].includes(wanted('size')));
  const language = wanted('language') === 'es' ? 'es' : 'en';
  const zoom = Number(wanted('zoom') ?? 1);
  const grounds = Object.entries(GROUNDS).filter(([name]) => [undefined, name].includes(wanted('ground')));
  for (const [ground] of isMeasured ? [] : grounds)
    for (const size of sizes) mkdirSync(join(folder, `${ground}-${size.join('x')}`), { recursive: true });
  /** The views are come to by their English names. @param {'en' | 'es'} wantedNow */
  const speak = async (wantedNow) => {
    if (language === 'en') return;
    await chooseInMenu({ app }, `language-${wantedNow}`);
    await page.locator(`html[lang="${wantedNow}"]`).waitFor();
  };
  let number = 0;
  let count = 0;
  let lostCount = 0;
  await page.getByRole('radio', { name: 'SI' }).check({ force: true });
  try {
    await walkThroughViews({ app, page, folder: scratch }, async ({ name }) => {
      number++;
      const file = `${String(number).padStart(2, '0')}-${name.replace(/[^a-z0-9]+/gi, '-')}.png`;
      await speak(language);
      // A pointer that rests on something is no part of the view.
      await page.mouse.move(0, 0);
      for (const size of sizes) {
        await app.evaluate(
          ({ BrowserWindow }, [width, height, by]) => {
            // A certificate that was printed may have left a hidden one.
            const shown = BrowserWindow.getAllWindows().find((one) => one.isVisible());
            shown?.setContentSize(width, height);
            shown?.webContents.setZoomFactor(by);
          },
          /** @type {const} */ ([...size, zoom]),
        );
        await page.waitForFunction(
          ([width, by]) => Math.abs(innerWidth - width / by) <= 1,
          /** @type {const} */ ([size[0], zoom]),
        );
        if (isMeasured) {
          const lost = await lostIn(page, `${name}, ${size.join(' × ')} at ${String(100 * zoom)} %`);
          lostCount += lost.length;
          for (const one of lost) say(one);
          continue;
        }
        for (const [ground, media] of grounds) {
          await page.emulateMedia(media);
          await page.locator(`html[data-theme="${ground}"]`).waitFor();
          const to = join(folder, `${ground}-${size.join('x')}`, file);
          if (zoom === 1) await page.screenshot({ path: to });
          else writeFileSync(to, await whole(app));
          count++;
        }
      }
      await speak('en');
      if (!isMeasured) say(file);
    });
  } finally {
    say(
      isMeasured
        ? `${String(number)} views, ${String(lostCount)} lost.`
        : `${String(count)} pictures are in ${folder}.`,
    );
  }
  return lostCount === 0 ? 0 : 1;
}

/**
 * The window as it is seen: the driver takes its first quarter only where the page is drawn at twice the size.
 * @param {import('playwright').ElectronApplication} app
 */
async function whole(app) {
  const png = await app.evaluate(async ({ BrowserWindow }) => {
    const shown = BrowserWindow.getAllWindows().find((one) => one.isVisible());
    return (await shown?.webContents.capturePage())?.toPNG().toString('base64') ?? '';
  });
  return Buffer.from(png, 'base64');
}
