/**
 * Every view of the real window, empty and filled (`electron/setup/all-views.mjs`): axe-core finds nothing on any ground
 * and in either language, targets are large, 200 % zoom loses nothing, forced colours hide nothing and nothing moves; no
 * view has two next steps, and what is empty says what to do.
 */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type View, walkThroughViews } from '../../electron/setup/all-views.mjs';
import { DrawnComponents, allComponents } from './support/drawn-components.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import {
  ALL_GROUNDS,
  FORCED,
  NOT_FORCED,
  bringAxe,
  emptyWithoutWay,
  faultsForced,
  faultsIn,
  faultsInWords,
  lostIn,
  severalCalls,
} from './support/looked-over.ts';
import { chooseSi } from './support/simulated-readout.ts';

const SMALL_SCREEN = { width: 1_366, height: 768 };
const LARGE_SCREEN = { width: 3_840, height: 2_160 };

/** Drawn by none of the views, and the test in which they are looked over instead. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  'renderer/again/again-place.tsx ChangedTable': 'window-many-pulls',
  'renderer/again/again-place.tsx PullCell': 'window-many-pulls',
  'renderer/again/again-place.tsx KeepChanged': 'window-many-pulls',
  'renderer/again/again-place.tsx SetsBlock': 'window-many-pulls',
  'renderer/exchange/other-archives-sheet.tsx OneArchive': 'window-exchange',
  'renderer/exchange/other-archives-sheet.tsx MarkElsewhere': 'window-exchange',
  'renderer/exchange/restore-sheet.tsx StateRow': 'window-exchange',
  'renderer/exchange/restore-sheet.tsx Only': 'window-exchange',
  'renderer/overlay/overlay-values.tsx DifferenceValues': 'window-many-pulls',
  'renderer/self-check/self-check-place.tsx Findings': 'window-self-check',
  'renderer/self-check/self-check-place.tsx Group': 'window-self-check',
  'renderer/self-check/self-check-place.tsx Row': 'window-self-check',
  'renderer/stations/specimen/correction-block.tsx CorrectionBlock': 'window-calliper-typed-board',
  'renderer/stations/specimen/corrected-pulls.tsx CorrectedPulls': 'window-calliper-typed-board',
  'renderer/stations/specimen/corrected-pulls.tsx OnePull': 'window-calliper-typed-board',
};

let window: GaugemarkWindow;
const { folder, remove } = scratchFolder();
beforeAll(async () => {
  window = await GaugemarkWindow.open({ folder });
  await window.connected();
});
afterAll(async () => {
  await window.end();
  remove();
});

async function sized({ width, height }: typeof SMALL_SCREEN, zoom = 1): Promise<void> {
  await window.app.evaluate(
    ({ BrowserWindow }, [w, h, by]) => {
      const [first] = BrowserWindow.getAllWindows();
      first?.setContentSize(w, h);
      first?.webContents.setZoomFactor(by);
    },
    [width, height, zoom] as const,
  );
  await window.page.waitForFunction(([w, by]) => Math.abs(innerWidth - w / by) <= 1, [width, zoom] as const);
}

async function speak(language: 'en' | 'es'): Promise<void> {
  await window.choose(`language-${language}`);
  await window.page.locator(`html[lang="${language}"]`).waitFor();
}

/** The longer words of Spanish at twice the size on a small screen, and places on a large one. */
async function faultsOfSize(name: string): Promise<string[]> {
  const { page } = window;
  await sized(SMALL_SCREEN, 2);
  const faults = await lostIn(page, `${name}, at 200 %`);
  if (name.includes(', filled')) {
    await sized(LARGE_SCREEN);
    faults.push(...(await lostIn(page, `${name}, at 3840 × 2160`)));
  }
  await sized(SMALL_SCREEN);
  return faults;
}

async function faultsOf({ name }: View): Promise<string[]> {
  const { page } = window;
  // What stands on an empty page stands on the filled one in the same colours.
  const isEmpty = name.endsWith('empty');
  const faults = [...(await severalCalls(page, name)), ...(await emptyWithoutWay(page, name))];
  faults.push(...(await faultsIn(page, name, isEmpty ? ['chalk'] : ALL_GROUNDS, name === 'set, filled')));
  await page.emulateMedia(FORCED);
  faults.push(...(await faultsForced(page, `${name}, colours forced`)));
  await page.emulateMedia(NOT_FORCED);
  await speak('es');
  faults.push(...(await faultsInWords(page, `${name}, in Spanish`)));
  faults.push(...(await faultsOfSize(`${name}, in Spanish`)));
  await speak('en');
  return faults;
}

it('finds nothing at fault in any view, and comes by every component of the page (C7)', async () => {
  const { page, app } = window;
  await chooseSi(page);
  await sized(SMALL_SCREEN);
  await bringAxe(page);
  const drawn = await DrawnComponents.from(page);
  const faults: string[] = [];
  await walkThroughViews({ app, page, folder }, async (view) => {
    faults.push(...(await faultsOf(view)));
  });
  expect(faults).toEqual([]);
  const seen = await drawn.soFar();
  const unseen = allComponents().filter((component) => !seen.has(component) && !(component in ELSEWHERE));
  expect(unseen).toEqual([]);
}, 400_000);

it('shows what has the focus, with colours forced too', async () => {
  const { page } = window;
  for (const media of [NOT_FORCED, FORCED]) {
    await page.emulateMedia(media);
    await page.keyboard.press('Tab');
    const ring = await page.evaluate(() => {
      const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement ?? document.body);
      return { outlineStyle, outlineWidth };
    });
    expect(ring).toEqual({ outlineStyle: 'solid', outlineWidth: '3px' });
  }
  await page.emulateMedia(NOT_FORCED);
});
