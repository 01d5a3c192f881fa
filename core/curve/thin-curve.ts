/** A whole curve thinned for one picture, with as many corner points as that picture can use. */
import { CORNERS_MAX, HYSTERESIS_PX, type PixelMap, ThinnedTrace } from './thinning.ts';

export interface ThinSource {
  readonly length: number;
  /** NaN where there is no value: the pen is lifted. */
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  /** Readings before which the pen is lifted, ascending. */
  readonly lifts?: readonly number[];
}

export interface ThinOptions {
  /** Corner points at most; the hysteresis is doubled until they are enough. */
  readonly cornersMax?: number;
  readonly hysteresisPx?: number;
}

/**
 * Keeps, of every run, the first, lowest, highest and last reading at their true place and in the order of time, and
 * so the first and last reading and both extremes of each stretch. Throws a RangeError where the stretches between
 * gaps alone need more points than allowed.
 */
export function thinCurve(
  source: ThinSource,
  map: PixelMap,
  { cornersMax = CORNERS_MAX, hysteresisPx = HYSTERESIS_PX }: ThinOptions = {},
): ThinnedTrace {
  for (let hysteresis = hysteresisPx; Number.isFinite(hysteresis); hysteresis *= 2) {
    const thinned = thinnedOnce(source, map, hysteresis, cornersMax);
    if (thinned !== null) return thinned;
  }
  throw new RangeError(`the stretches between gaps alone need more than ${String(cornersMax)} points`);
}

/** Null as soon as there are more corners than allowed. */
function thinnedOnce(
  source: ThinSource,
  map: PixelMap,
  hysteresisPx: number,
  cornersMax: number,
): ThinnedTrace | null {
  const thinned = new ThinnedTrace(map, hysteresisPx);
  const lifts = source.lifts ?? [];
  let next = 0;
  for (let i = 0; i < source.length; i++) {
    while ((lifts[next] ?? Infinity) <= i) {
      thinned.lift();
      next++;
    }
    thinned.add(source.x[i] ?? Number.NaN, source.y[i] ?? Number.NaN, i);
    if (thinned.length > cornersMax) return null;
  }
  thinned.settle();
  return thinned.length > cornersMax ? null : thinned;
}
