/** The page's own plot in a real page: what stands there while a pull runs is what would be drawn of it from the beginning. */
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import type { ElectronApplication, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { scratchFolder } from './support/gaugemark-window.ts';
import type { GrownCurve, Likeness } from './support/grown-curve-page.ts';
import { openSmallPage, writeSmallPage } from './support/small-page.ts';
import { until } from './support/until.ts';

/** Ends of dashes where pieces of the line are joined elsewhere; a stretch that is missing, dashes that begin anew or a mark left behind are hundreds. */
const OTHERS_MAX = 60;

const { folder, remove } = scratchFolder();
let app: ElectronApplication;
let page: Page;

beforeAll(async () => {
  const script = fileURLToPath(new URL('./support/grown-curve-page.ts', import.meta.url));
  ({ app, page } = await openSmallPage(await writeSmallPage(folder, script), join(folder, 'settings')));
});
afterAll(async () => {
  await app.close();
  remove();
});

type Compare = 'likeness' | 'likenessOnGround';

const compared = (how: Compare, curve: GrownCurve): Promise<Likeness> =>
  page.evaluate(
    ([name, given]) =>
      (globalThis as unknown as Record<Compare, (g: GrownCurve) => Promise<Likeness>>)[name](given),
    [how, curve] as const,
  );

/** As a screen with other pixels shows it. */
async function withPixels(ratio: number): Promise<void> {
  const tools = await page.context().newCDPSession(page);
  await tools.send('Emulation.setDeviceMetricsOverride', {
    width: 1280,
    height: 860,
    deviceScaleFactor: ratio,
    mobile: false,
  });
  await until(() => page.evaluate((asked) => devicePixelRatio === asked, ratio), 'the page has those pixels');
  await tools.detach();
}

it.each([
  { ink: 'blue', width: 520, height: 300, ratio: 1, panesMin: 1 },
  { ink: 'bronze', width: 520, height: 300, ratio: 1, panesMin: 1 },
  { ink: 'blue', width: 1100, height: 600, ratio: 1, panesMin: 4 },
  { ink: 'grey', width: 1100, height: 600, ratio: 1, panesMin: 4 },
  { ink: 'blue', width: 701, height: 413, ratio: 1.25, panesMin: 2 },
] as const)(
  'a $ink curve of $width × $height px at $ratio that came reading by reading looks as one that is drawn at once',
  async ({ panesMin, ratio, ...curve }) => {
    await withPixels(ratio);
    const alike = await compared('likeness', curve);
    expect(alike.panes).toBeGreaterThanOrEqual(panesMin);
    expect(alike.inked).toBeGreaterThan(500);
    expect(alike.others).toBeLessThanOrEqual(OTHERS_MAX);
    expect(alike.apart).toBeLessThan(0.02);
  },
);

it('a plot that stands is drawn anew for another ground', async () => {
  await withPixels(1);
  const alike = await compared('likenessOnGround', { ink: 'blue', width: 520, height: 300 });
  expect(alike.inked).toBeGreaterThan(500);
  expect(alike.others).toBe(0);
});
