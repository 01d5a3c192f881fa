/** Zooming and moving a pull of 10⁶ readings on the plot of the overlay, in a real page, against one pass over them. */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { benchFolder } from './support/bench-recorder.ts';
import { openSmallPage, writeSmallPage } from '../app/support/small-page.ts';
import { median, shareOf, short } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';
import type { ZoomTimes } from './support/zoom-page.ts';

const READINGS = 1_000_000;
const ROUNDS = 5;
/** Plots are drawn twenty times a second at most: several passes over all readings fit in between on a quiet machine. */
const TIMES_A_PASS = 4;

const folder = benchFolder();
const script = fileURLToPath(new URL('./support/zoom-page.ts', import.meta.url));
const { app, page } = await openSmallPage(await writeSmallPage(folder, script), join(folder, 'settings'));
const { minMaxMs, wholeMs, zoomMs, panMs, corners } = await page.evaluate(
  ([count, rounds]) =>
    (globalThis as unknown as { measureZoom: (c: number, r: number) => Promise<ZoomTimes> }).measureZoom(
      count,
      rounds,
    ),
  [READINGS, ROUNDS] as const,
);
const floor = median(minMaxMs);
const rowOf = (what: string, times: readonly number[], goal: boolean): Row => {
  const p95 = shareOf(times, 0.95);
  return {
    what,
    floor: `${short(floor)} ms (one min/max pass)`,
    measured: `${short(median(times))} ms, 95 of 100 within ${short(p95)}`,
    ratio: `${short(median(times) / floor)} ×`,
    goal: goal ? goalText(`≤ ${String(TIMES_A_PASS)} ×`, median(times) <= TIMES_A_PASS * floor) : '',
    spread: `${String(times.length)} drawings`,
  };
};
printTable(
  'A pull of 10⁶ readings zoomed and moved, in a real page',
  [
    rowOf('the whole of it drawn', wholeMs, false),
    rowOf('a notch of the wheel, from the whole to a thousandth', zoomMs, true),
    rowOf('moved by a twentieth of the picture', panMs, true),
  ],
  [`Most corner points of one drawing: ${String(corners)}. Times include the pixels, not only the commands.`],
);
await app.close();
process.exit(0);
