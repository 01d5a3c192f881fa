/**
 * From starting the program to a window that can be used (its page asks the recorder for the session and gets it, and
 * has shown a frame), against a small Electron program with one page of one sentence. Each start is one of its own, with
 * settings that are there already; the recorder is started by the window and ended after each.
 */
import { join } from 'node:path';
import { GaugemarkWindow } from '../app/support/gaugemark-window.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { alternate } from './support/rounds.ts';
import { openSmallPage, writeSmallPage } from './support/small-page.ts';
import { comparedRow, printTable } from './support/table.ts';

const ROUNDS = 5;

const folder = benchFolder();
const place = await writeSmallPage(folder, null);

async function smallPageMs(): Promise<number> {
  const from = performance.now();
  const { app, page } = await openSmallPage(place, join(folder, 'small-settings'));
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
  const took = performance.now() - from;
  await app.close();
  return took;
}

/** Of the window alone, and until its recorder answers. */
async function windowMs(): Promise<{ readonly page: number; readonly usable: number }> {
  const from = performance.now();
  const window = await GaugemarkWindow.open({ folder });
  await window.page.getByRole('navigation').first().waitFor();
  await window.page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
  const page = performance.now() - from;
  await window.page.evaluate(async () => {
    const bridge = globalThis as unknown as {
      gaugemark: { request: (n: string, p: object) => Promise<{ ok: boolean }> };
    };
    while (!(await bridge.gaugemark.request('session.get', {})).ok)
      await new Promise((resolve) => setTimeout(resolve, 5));
  });
  const usable = performance.now() - from;
  await window.end();
  return { page, usable };
}

await smallPageMs();
await windowMs();
const { floor, measured } = await alternate<{ readonly page: number; readonly usable: number }>(ROUNDS, {
  floor: async () => {
    const ms = await smallPageMs();
    return { page: ms, usable: ms };
  },
  measured: windowMs,
});
printTable('Starting', [
  comparedRow({
    what: 'start to usable: page shown and the recorder answers it',
    unit: 'ms',
    floor: floor.map(({ usable }) => usable),
    measured: measured.map(({ usable }) => usable),
    atMost: 1.2,
  }),
  comparedRow({
    what: 'start to the page with its stations shown',
    unit: 'ms',
    floor: floor.map(({ page }) => page),
    measured: measured.map(({ page }) => page),
  }),
]);
process.exit(0);
