/**
 * Drawing a curve of 10⁴, 10⁵ and 10⁶ readings in a real Electron page with the program's own plot (axes, chart paper,
 * curve, marks, pixels and all), against one pass over the readings for least and largest values, and against drawing
 * every reading.
 */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { benchFolder } from './support/bench-recorder.ts';
import type { RedrawTimes } from './support/redraw-page.ts';
import { openSmallPage, writeSmallPage } from '../app/support/small-page.ts';
import { median, ratioOf, ratios, short, spreadText } from './support/statistics.ts';
import { type Row, comparedRow, goalText, printTable } from './support/table.ts';

const ROUNDS = 9;
const SIZES = [
  [10_000, '10⁴'],
  [100_000, '10⁵'],
  [1_000_000, '10⁶'],
] as const;

const folder = benchFolder();
const script = fileURLToPath(new URL('./support/redraw-page.ts', import.meta.url));
const { app, page } = await openSmallPage(await writeSmallPage(folder, script), join(folder, 'settings'));
const rows: Row[] = [];
const touches: number[] = [];
for (const [readings, words] of SIZES) {
  const { minMaxMs, redrawMs, followMs, allMs, touchMs, corners } = await page.evaluate(
    ([count, rounds]) =>
      (globalThis as unknown as { measure: (c: number, r: number) => Promise<RedrawTimes> }).measure(
        count,
        rounds,
      ),
    [readings, ROUNDS] as const,
  );
  touches.push(...touchMs);
  const isLargest = readings === 1_000_000;
  rows.push(
    comparedRow({
      what: `redraw of ${words} readings, all thinned anew (${corners} corners), against one min/max pass`,
      unit: 'ms',
      floor: minMaxMs,
      measured: redrawMs,
      ...(isLargest ? { atMost: 8 } : {}),
    }),
    {
      what: `the same against drawing all ${words}`,
      floor: `${short(median(allMs))} ms`,
      measured: `${short(median(redrawMs))} ms`,
      ratio: `1/${short(1 / ratioOf(allMs, redrawMs))}`,
      goal: isLargest ? goalText('≤ 1/7', ratioOf(allMs, redrawMs) <= 1 / 7) : '',
      spread: spreadText(ratios(redrawMs, allMs)),
    },
    comparedRow({
      what: `redraw of ${words} readings while they come, 16 more, against one pixel drawn`,
      unit: 'ms',
      floor: touchMs,
      measured: followMs,
    }),
  );
}
const drawsWith = await app.evaluate(({ app: electron }) => electron.getGPUFeatureStatus());
printTable('Redrawing, in a real page', rows, [
  `Canvas: ${drawsWith['2d_canvas']}; drawing: ${drawsWith.gpu_compositing}. Times include the pixels, not only the commands.`,
  `One pixel drawn on a canvas of this size that was shown in the last frame takes ${short(median(touches))} ms here; that is in every time, and the least that any redraw can take.`,
]);
await app.close();
process.exit(0);
