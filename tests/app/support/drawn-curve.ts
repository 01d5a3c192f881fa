/** Where a curve is drawn, as the pixels of its picture say. */
import type { Locator } from 'playwright';
import { wholePicture } from './whole-picture.ts';

/** Columns of the canvas, the last one included. */
export interface Columns {
  readonly from: number;
  readonly to: number;
}

/** Of each channel: what lies in the middle of the line has its very colour, its edges are mixed with the paper. */
const COLOUR_APART_MAX = 12;

/** Stretches of columns in which the picture of a plot has the colour of its curve, from left to right. */
export async function curveColumns(plot: Locator): Promise<Columns[]> {
  const { canvas } = await wholePicture(plot);
  return canvas.evaluate((whole, apartMax) => {
    const pixels = whole.getContext('2d')?.getImageData(0, 0, whole.width, whole.height);
    if (pixels === undefined) throw new Error('there is no picture');
    const colour = getComputedStyle(document.documentElement).getPropertyValue('--blue').trim();
    const curve = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
    const { data, width, height } = pixels;
    const isCurve = (at: number): boolean =>
      curve.every((value, i) => Math.abs((data[at + i] ?? 0) - value) <= apartMax);
    const stretches: { from: number; to: number }[] = [];
    for (let x = 0; x < width; x++) {
      if (!Array.from({ length: height }, (_, y) => 4 * (y * width + x)).some(isCurve)) continue;
      const last = stretches.at(-1);
      if (last?.to === x - 1) last.to = x;
      else stretches.push({ from: x, to: x });
    }
    return stretches;
  }, COLOUR_APART_MAX);
}
