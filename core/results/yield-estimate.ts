/**
 * A first idea of where yielding begins, so that the window of the elastic line can be set as a part of it.
 * It only steers the search and may rest on every n-th reading; no reported value is taken from it.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';

export interface View {
  readonly stress: Float64Array;
  readonly strain: Float64Array;
  readonly length: number;
}

/** Readings that a search looks at; an ordinary pull has fewer and is looked at whole. */
export const VIEW_READINGS_MAX = 8_000;
/** Plastic strain at which a metal is taken to have yielded. */
const YIELD_OFFSET = 0.002;
const LEVELS = 50;
/** Part of the maximum that a stretch must span to count as a slope, and below which nothing is trusted. */
const SPAN = 0.15;
const FLOOR = 0.08;
/** Steepness counts by R² to this power, so that a steep but crooked stretch (sticking at the start) loses. */
const STRAIGHTNESS_POWER = 8;

/** Every n-th reading of the range that has both values. */
export function searchView(stress: Channel, strain: Channel, { from, to }: IndexRange): View {
  const stride = Math.max(1, Math.ceil((to - from) / VIEW_READINGS_MAX));
  const capacity = Math.ceil(Math.max(0, to - from) / stride);
  const ys = new Float64Array(capacity);
  const xs = new Float64Array(capacity);
  let length = 0;
  for (let i = from; i < to; i += stride) {
    const y = ((stress.column[i] as number) - stress.zero) * stress.factor;
    const x = ((strain.column[i] as number) - strain.zero) * strain.factor;
    if (!(x === x && y === y)) continue;
    ys[length] = y;
    xs[length] = x;
    length += 1;
  }
  return { stress: ys, strain: xs, length };
}

export interface FirstSlope {
  readonly slope: number;
  readonly foot: number;
}

/** The steepest straight stretch of the loading, through the means of stress steps; null where there is none. */
export function steepestStretch(view: View, peak: number): FirstSlope | null {
  const bins = stressSteps(view, peak);
  let best: FirstSlope | null = null;
  let bestScore = 0;
  for (let i = 0; i < bins.length; i++) {
    const first = bins[i];
    if (first === undefined || first.stress < FLOOR * peak) continue;
    let n = 0;
    let sx = 0;
    let sy = 0;
    let sxx = 0;
    let sxy = 0;
    let syy = 0;
    for (let j = i; j < bins.length; j++) {
      const bin = bins[j];
      if (bin === undefined) break;
      const x = bin.strain - first.strain;
      const y = bin.stress - first.stress;
      n += 1;
      sx += x;
      sy += y;
      sxx += x * x;
      sxy += x * y;
      syy += y * y;
      if (y < SPAN * peak) continue;
      const vx = sxx - (sx * sx) / n;
      const vy = syy - (sy * sy) / n;
      const c = sxy - (sx * sy) / n;
      if (!(vx > 0 && c > 0)) break;
      const slope = c / vx;
      const candidate = { slope, foot: first.strain + sx / n - (first.stress + sy / n) / slope };
      const score = slope * ((c * c) / (vx * vy)) ** STRAIGHTNESS_POWER;
      if (score > bestScore) {
        bestScore = score;
        best = candidate;
      }
      break;
    }
  }
  return best;
}

interface StressStep {
  readonly stress: number;
  readonly strain: number;
}

/** Means of the readings between the first passages of equally spaced stresses. */
function stressSteps(view: View, peak: number): StressStep[] {
  const steps: StressStep[] = [];
  let level = 0;
  let n = 0;
  let sx = 0;
  let sy = 0;
  const close = (): void => {
    if (n > 0) steps.push({ stress: sy / n, strain: sx / n });
    n = 0;
    sx = 0;
    sy = 0;
  };
  for (let i = 0; i < view.length; i++) {
    const y = view.stress[i] as number;
    const reached = Math.floor((y / peak) * LEVELS);
    if (reached > level) {
      close();
      level = reached;
    }
    n += 1;
    sx += view.strain[i] as number;
    sy += y;
  }
  close();
  return steps;
}

/** The largest stress until the plastic strain reaches 0.2 %, or in all if it never does. */
export function yieldEstimate(view: View, { slope, foot }: FirstSlope): number {
  let largest = 0;
  for (let i = 0; i < view.length; i++) {
    const y = view.stress[i] as number;
    if (y > largest) largest = y;
    if (plastic(view, i, slope, foot) < YIELD_OFFSET) continue;
    if (i + 1 >= view.length || plastic(view, i + 1, slope, foot) >= YIELD_OFFSET) return largest;
  }
  return largest;
}

const plastic = (view: View, i: number, slope: number, foot: number): number =>
  (view.strain[i] as number) - foot - (view.stress[i] as number) / slope;
