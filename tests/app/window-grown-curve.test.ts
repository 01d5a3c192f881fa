/** The page's own plot in a real page: what stands there while a pull runs is what would be drawn of it from the beginning. */
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import type { ElectronApplication, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { scratchFolder } from './support/gaugemark-window.ts';
import type { GrownCurve, Likeness } from './support/grown-curve-page.ts';
import { openSmallPage, writeSmallPage } from './support/small-page.ts';

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

it.each([
  { ink: 'blue', width: 520, height: 300, panesMin: 1 },
  { ink: 'bronze', width: 520, height: 300, panesMin: 1 },
  { ink: 'blue', width: 1100, height: 600, panesMin: 4 },
  { ink: 'grey', width: 1100, height: 600, panesMin: 4 },
] as const)(
  'a $ink curve of $width × $height px that came reading by reading looks as one that is drawn at once',
  async ({ panesMin, ...curve }) => {
    const alike = await page.evaluate(
      (given) =>
        (globalThis as unknown as { likeness: (g: GrownCurve) => Promise<Likeness> }).likeness(given),
      curve,
    );
    expect(alike.panes).toBeGreaterThanOrEqual(panesMin);
    expect(alike.inked).toBeGreaterThan(500);
    expect(alike.others).toBeLessThanOrEqual(OTHERS_MAX);
  },
);
