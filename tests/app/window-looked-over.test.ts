/**
 * Every view of the real window, empty and filled (`electron/setup/all-views.mjs`): axe-core finds nothing on any ground
 * and in either language, targets are large, the least window loses nothing, at 200 % zoom neither, forced colours hide
 * nothing, nothing moves or blinks; the focus is seen at every stop of Tab and goes on in the order of the page; no view has
 * two next steps, and what is empty says what to do.
 */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type View, walkThroughViews } from '../../electron/setup/all-views.mjs';
import { lostIn } from '../../electron/setup/lost-in-view.mjs';
import { DrawnComponents, LOOKED_AT_ELSEWHERE, allComponents } from './support/drawn-components.ts';
import { faultsOfFocus } from './support/focus-walk.ts';
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
  moving,
  settled,
  severalCalls,
  withoutStep,
} from './support/looked-over.ts';
import { chooseSi } from './support/simulated-readout.ts';

/** The least window there is (issue 7); every view is looked over in it. */
const LEAST_WINDOW = { width: 1_024, height: 700 };
const SMALL_SCREEN = { width: 1_366, height: 768 };
const LARGE_SCREEN = { width: 3_840, height: 2_160 };

/** Where Tab is led round once: forms, tables, plots, sheets and the panel of looks, of each kind a full one. */
const WALKED: ReadonlySet<string> = new Set([
  'sheet of looks',
  'set with faults',
  'numbers of an unknown readout',
  'pull that has ended',
  'set, filled',
  'result, filled',
  'verdict overruled',
  'evaluation sheet',
  'filters and columns',
  'lay-over',
]);

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
      // Others that nobody sees print what is kept as PDF.
      const first = BrowserWindow.getAllWindows().find((one) => one.isVisible());
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

/**
 * The longer words of Spanish in the least window, also at twice the size, and places at twice the size of a small screen and
 * on a large one. All views in more sizes at twice the size: `npm run screenshots -- --all --lost --zoom=2`.
 */
async function faultsOfSize(name: string): Promise<string[]> {
  const { page } = window;
  const faults = await lostIn(page, `${name}, at 1024 × 700`);
  await sized(LEAST_WINDOW, 2);
  faults.push(...(await lostIn(page, `${name}, at 1024 × 700 and 200 %`)));
  if (name.includes(', filled')) {
    await sized(SMALL_SCREEN, 2);
    faults.push(...(await lostIn(page, `${name}, at 1366 × 768 and 200 %`)));
    await sized(LARGE_SCREEN);
    faults.push(...(await lostIn(page, `${name}, at 3840 × 2160`)));
  }
  await sized(LEAST_WINDOW);
  return faults;
}

async function faultsOf({ name }: View): Promise<string[]> {
  const { page } = window;
  // What stands on an empty page stands on the filled one in the same colours.
  const isEmpty = name.endsWith('empty');
  await settled(page);
  const faults = [
    ...(await moving(page, name)),
    ...(await severalCalls(page, name)),
    ...(await withoutStep(page, name)),
    ...(await emptyWithoutWay(page, name)),
  ];
  faults.push(...(await faultsIn(page, name, isEmpty ? ['chalk'] : ALL_GROUNDS, name === 'set, filled')));
  await page.emulateMedia(FORCED);
  faults.push(...(await faultsForced(page, `${name}, colours forced`)));
  if (name === 'instrument') faults.push(...(await faultsOfFocus(page, `${name}, colours forced`)));
  await page.emulateMedia(NOT_FORCED);
  await speak('es');
  await settled(page);
  faults.push(...(await faultsInWords(page, `${name}, in Spanish`, name.startsWith('set, '))));
  faults.push(...(await faultsOfSize(`${name}, in Spanish`)));
  await speak('en');
  if (WALKED.has(name)) faults.push(...(await faultsOfFocus(page, name)));
  return faults;
}

it('finds nothing at fault in any view, and comes by every component of the page (C7)', async () => {
  const { page, app } = window;
  await chooseSi(page);
  await sized(LEAST_WINDOW);
  await bringAxe(page);
  const drawn = await DrawnComponents.from(page);
  const faults: string[] = [];
  await walkThroughViews({ app, page, folder }, async (view) => {
    faults.push(...(await faultsOf(view)));
  });
  expect(faults).toEqual([]);
  const seen = await drawn.soFar();
  const unseen = allComponents().filter(
    (component) => !seen.has(component) && !(component in LOOKED_AT_ELSEWHERE),
  );
  expect(unseen).toEqual([]);
  // What is drawn here after all needs no other test.
  expect(Object.keys(LOOKED_AT_ELSEWHERE).filter((component) => seen.has(component))).toEqual([]);
}, 900_000);
