/**
 * The elastic line from an unloading loop. Where the elastic part is not clear, ISO 6892-1 (offset method, from memory)
 * lets the force go back to about a tenth once the presumed proof strength is passed, and rise again beyond where it
 * was: the line through that loop gives the slope, and a line parallel to it, touching the loading, the corrected origin.
 */
import { type Channel, type IndexRange, channelValue } from '../curve/channel.ts';
import type { ElasticLine, UnloadingLoop } from './elastic-line.ts';
import { fitLine } from './line-fit.ts';
import { firstReaching } from './slope-window.ts';

/** The force must have gone back by at least this part of the top; ISO 6892-1 wants about 0.9 (from memory). */
export const LOOP_FALL_MIN = 0.5;
/** Readings of a loop without which no line through it means anything. */
const LOOP_READINGS_MIN = 10;
/** The loading below the loop is looked at in this many bands of stress. */
const BANDS = 9;

/** The first loop of the loading (first reading to maximum) in which load and extension went back and came again. */
export function unloadingLoop(stress: Channel, strain: Channel, loading: IndexRange): UnloadingLoop | null {
  const ys = stress.column;
  const deep = 1 - LOOP_FALL_MIN;
  let top = -1;
  let low = -1;
  for (let i = loading.from; i < loading.to; i++) {
    const y = ys[i] as number;
    if (y !== y) continue;
    const above = y - stress.zero;
    const topAbove = top < 0 ? -Infinity : (ys[top] as number) - stress.zero;
    if (above >= topAbove) {
      if (low >= 0 && isLoop(stress, strain, top, low, i))
        return { topIndex: top, lowIndex: low, backIndex: i };
      top = i;
      low = -1;
    } else if (above <= deep * topAbove && (low < 0 || y < (ys[low] as number))) low = i;
  }
  return null;
}

/** A fall of the load alone (a slip of the grips, a fault of the channel) takes no extension back. */
function isLoop(stress: Channel, strain: Channel, top: number, low: number, back: number): boolean {
  const fell = channelValue(stress, top) - channelValue(stress, low);
  const went = channelValue(strain, top) - channelValue(strain, low);
  return back - top >= LOOP_READINGS_MIN && fell > 0 && went > 0;
}

/** Null where there is no loop, or no line through it. */
export function lineOfLoop(stress: Channel, strain: Channel, loading: IndexRange): ElasticLine | null {
  const loop = unloadingLoop(stress, strain, loading);
  if (loop === null) return null;
  const fit = fitLine(stress, strain, { from: loop.topIndex, to: loop.backIndex });
  if (fit === null || !(fit.slope > 0)) return null;
  const touching = touchingBand(stress, strain, { from: loading.from, to: loop.topIndex + 1 }, fit.slope);
  if (touching === null) return null;
  return {
    fit: { ...fit, intercept: -fit.slope * touching.foot, meanStress: touching.meanStress },
    range: touching.range,
    lowerMpa: channelValue(stress, loop.lowIndex),
    upperMpa: channelValue(stress, loop.topIndex),
    bend: null,
    loop,
    chosen: 'loop',
  };
}

interface Touching {
  readonly range: IndexRange;
  /** Strain at which the parallel meets zero stress. */
  readonly foot: number;
  readonly meanStress: number;
}

/** The band of the loading that a parallel, moved up from the left, touches first; by means, so that noise doesn't choose. */
function touchingBand(stress: Channel, strain: Channel, loading: IndexRange, slope: number): Touching | null {
  const topMpa = channelValue(stress, loading.to - 1);
  let best: Touching | null = null;
  for (let band = 0; band < BANDS; band++) {
    const lower = ((band + 0.5) / (BANDS + 1)) * topMpa;
    const upper = ((band + 1.5) / (BANDS + 1)) * topMpa;
    const range = { from: firstReaching(stress, loading, lower), to: firstReaching(stress, loading, upper) };
    const mean = meanOf(stress, strain, range);
    if (mean === null) continue;
    const foot = mean.strain - mean.stress / slope;
    if (best === null || foot < best.foot) best = { range, foot, meanStress: mean.stress };
  }
  return best;
}

function meanOf(
  stress: Channel,
  strain: Channel,
  { from, to }: IndexRange,
): { readonly stress: number; readonly strain: number } | null {
  let n = 0;
  let sy = 0;
  let sx = 0;
  for (let i = from; i < to; i++) {
    const y = channelValue(stress, i);
    const x = channelValue(strain, i);
    if (y !== y || x !== x) continue;
    n += 1;
    sy += y;
    sx += x;
  }
  return n === 0 ? null : { stress: sy / n, strain: sx / n };
}
