/**
 * The rising curve in steps of new heights of stress: what is seen of it when neither noise nor an unloading on the way
 * shall matter. Only readings in the height that was reached last count; those below it (an unloading, a fall) belong
 * to none.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';

export interface HeightStep {
  /** First reading that reached it. */
  readonly index: number;
  readonly readings: number;
  /** Means of its readings: MPa, and strain as recorded. */
  readonly stressMpa: number;
  readonly strain: number;
}

/** Each step is this part of the maximum stress. */
const STEP_PART = 0.02;

/** In the order of the pull. Ends with the range, or when the extension has grown by `strainMax`. */
export function heightSteps(
  stress: Channel,
  strain: Channel,
  { from, to }: IndexRange,
  peakMpa: number,
  strainMax: number,
): HeightStep[] {
  const ys = stress.column;
  const xs = strain.column;
  const width = (STEP_PART * peakMpa) / stress.factor;
  const farthest = strainMax / strain.factor;
  const steps: HeightStep[] = [];
  let origin = Number.NaN;
  let height = -Infinity;
  let floor = -Infinity;
  let ceiling = -Infinity;
  let index = from;
  let n = 0;
  let sumY = 0;
  let sumX = 0;
  const close = (): void => {
    if (n > 0)
      steps.push({
        index,
        readings: n,
        stressMpa: (sumY / n - stress.zero) * stress.factor,
        strain: (sumX / n - strain.zero) * strain.factor,
      });
    n = 0;
    sumY = 0;
    sumX = 0;
  };
  for (let i = from; i < to; i++) {
    const y = ys[i] as number;
    const x = xs[i] as number;
    if (!(y >= floor && x === x)) continue;
    if (origin !== origin) origin = x;
    if (x - origin > farthest) break;
    if (y >= ceiling) {
      close();
      // At least one more: a reading on the edge itself may be rounded to below it.
      height = Math.max(height + 1, Math.floor((y - stress.zero) / width));
      floor = stress.zero + height * width;
      ceiling = floor + width;
      index = i;
    }
    n += 1;
    sumY += y;
    sumX += x;
  }
  close();
  return steps;
}
