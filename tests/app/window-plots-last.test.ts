/** C5, C6: plots that are opened all day long, and carried to a screen with other pixels. Rows of `faults/rows.ts`. */
import type { CDPSession, Page } from 'playwright';
import { afterAll, beforeAll, it } from 'vitest';
import { archiveOfMany } from './support/archive-of-many.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import { until } from './support/until.ts';

const OPENED_BEFORE = 10;
const OPENED = 100;
/** What the engine keeps of its own between two collections; a curve of a pull alone takes more than this for all of them. */
const GROWTH_BYTES_MAX = 2 * 1_048_576;

const { folder, remove } = scratchFolder();
let window: GaugemarkWindow;
let page: Page;
let tools: CDPSession;

beforeAll(async () => {
  archiveOfMany(folder, 1, () => ({
    geometry: { kind: 'round', diameter: '5.003 mm' },
    extensometerGaugeLength: '25 mm',
  })).close();
  window = await GaugemarkWindow.open({ folder });
  ({ page } = window);
  tools = await page.context().newCDPSession(page);
  await window.connected();
  await page.keyboard.press('Control+f');
});
afterAll(async () => {
  await window.end();
  remove();
});

/** In the page itself, as fast as it shows them. */
function openAndClose(times: number): Promise<void> {
  return page.evaluate(async (rounds) => {
    const seen = async <T>(look: () => T | null | undefined): Promise<T> => {
      for (;;) {
        const found = look();
        if (found !== null && found !== undefined) return found;
        await new Promise(requestAnimationFrame);
      }
    };
    const button = (name: string) =>
      [...document.querySelectorAll('button')].find(
        (one) => one.getAttribute('aria-label') === name || one.textContent === name,
      );
    for (let i = 0; i < rounds; i++) {
      (await seen(() => button('Open the pull of K-1'))).click();
      await seen(() => document.querySelector('.curve-plot canvas'));
      (await seen(() => button('Back to the list'))).click();
    }
  }, times);
}

async function held(): Promise<{ bytes: number; listeners: number }> {
  await tools.send('HeapProfiler.collectGarbage');
  const { usedSize } = await tools.send('Runtime.getHeapUsage');
  const { jsEventListeners } = await tools.send('Memory.getDOMCounters');
  return { bytes: usedSize, listeners: jsEventListeners };
}

it('keeps nothing of a hundred pulls that were opened and closed (C5)', async () => {
  await openAndClose(OPENED_BEFORE);
  const before = await held();
  await openAndClose(OPENED);
  // On a busy machine the recorder still answers for pulls that were closed long ago; each is let go of with its answer.
  await until(async () => {
    const after = await held();
    return after.listeners < before.listeners + OPENED && after.bytes - before.bytes < GROWTH_BYTES_MAX;
  }, 'all hundred are let go of');
});

/** Pixels of the canvas for one of the page's, and what the page says of its screen. */
const sharpness = (canvas: string): Promise<{ drawn: number; screen: number }> =>
  page
    .locator(canvas)
    .first()
    .evaluate((node) => ({
      drawn: (node as HTMLCanvasElement).width / node.getBoundingClientRect().width,
      screen: globalThis.devicePixelRatio,
    }));

it.each([
  ['a curve', 'Open the pull of K-1', '.curve-plot canvas', 'Back to the list'],
  ['a drawing', 'Results over time', '.drawing-canvas canvas', 'Back to the list'],
])('draws %s anew for a screen with other pixels (C6)', async (_, open, canvas, back) => {
  await page.getByRole('button', { name: open }).click();
  await page.locator(canvas).first().waitFor();
  const size = await page.evaluate(() => ({ width: innerWidth, height: innerHeight }));
  for (const deviceScaleFactor of [1.5, 2, 1]) {
    // The engine tells nobody of an override that takes the place of another.
    await tools.send('Emulation.clearDeviceMetricsOverride');
    await tools.send('Emulation.setDeviceMetricsOverride', { ...size, deviceScaleFactor, mobile: false });
    await until(
      async () => {
        const { drawn, screen } = await sharpness(canvas);
        return screen === deviceScaleFactor && Math.abs(drawn / screen - 1) < 0.02;
      },
      `it has ${String(deviceScaleFactor)} pixels to one of the page`,
    );
  }
  await page.getByRole('button', { name: back }).click();
});
