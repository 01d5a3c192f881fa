/**
 * A whole curve with the boxes of its stretches, so that a picture of any part of it costs what the part shows and not
 * what the curve holds: a million readings are looked at once, then only where the picture is. For pictures alone.
 */
import type { RecordedPoints } from './recorded-points.ts';
import { CORNERS_MAX, HYSTERESIS_PX, type PixelMap, ThinnedTrace } from './thinning.ts';

/** Corner points of a part of one curve on a screen: twice as many as on paper; strokes of more cost frames and show nothing more. */
export const CORNERS_OF_ONE_MAX = 12_000;

/** Readings of one stretch. */
export const STRETCH_READINGS = 256;

export interface IndexSource extends RecordedPoints {
  /** First reading that is drawn; default 0. */
  readonly from?: number;
}

/** Where the picture is, in the pixels of the map. */
export interface PixelFrame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Extent {
  readonly least: number;
  readonly most: number;
}

interface Stretch {
  readonly from: number;
  /** Exclusive. */
  readonly to: number;
  readonly x: Extent;
  readonly y: Extent;
  readonly low: number;
  readonly high: number;
  /** The pen stays down from its first reading to its last. */
  readonly isWhole: boolean;
}

export class CurveIndex {
  readonly source: IndexSource;
  readonly #stretches: readonly Stretch[];

  constructor(source: IndexSource) {
    this.source = source;
    const stretches: Stretch[] = [];
    for (let from = source.from ?? 0; from < source.length; from += STRETCH_READINGS)
      stretches.push(stretchOf(source, from, Math.min(source.length, from + STRETCH_READINGS)));
    this.#stretches = stretches;
  }

  /** Extent of what has both values; null where nothing has. */
  get extent(): { readonly x: Extent; readonly y: Extent } | null {
    const all = { x: { least: Infinity, most: -Infinity }, y: { least: Infinity, most: -Infinity } };
    for (const { x, y } of this.#stretches) {
      all.x = { least: Math.min(all.x.least, x.least), most: Math.max(all.x.most, x.most) };
      all.y = { least: Math.min(all.y.least, y.least), most: Math.max(all.y.most, y.most) };
    }
    return all.x.most === -Infinity ? null : all;
  }

  /**
   * Corner points as `thinCurve` gives them, inside the frame; of stretches on one side of it only the ends of the
   * first and the last, so that what is not in the picture takes no points from what is, and a step along the curve leads
   * no further out of it than a stretch.
   * The hysteresis is doubled until `cornersMax` are enough.
   */
  thin(map: PixelMap, frame: PixelFrame, cornersMax: number = CORNERS_MAX): ThinnedTrace {
    for (let hysteresis = HYSTERESIS_PX; Number.isFinite(hysteresis); hysteresis *= 2) {
      const thinned = this.#thinnedOnce(map, frame, hysteresis, cornersMax);
      if (thinned !== null) return thinned;
    }
    throw new RangeError(`the stretches between gaps alone need more than ${String(cornersMax)} points`);
  }

  #thinnedOnce(
    map: PixelMap,
    frame: PixelFrame,
    hysteresisPx: number,
    cornersMax: number,
  ): ThinnedTrace | null {
    const { x, y, lifts = [] } = this.source;
    const thinned = new ThinnedTrace(map, hysteresisPx);
    const add = (i: number): void => thinned.add(x[i] ?? Number.NaN, y[i] ?? Number.NaN, i);
    let next = 0;
    // On which side the stretches before this one lie, and the last of them that is not drawn yet.
    let aside: Side | null = null;
    let skipped: Stretch | null = null;
    const comeBack = (): void => {
      if (skipped !== null) {
        add(skipped.from);
        add(skipped.to - 1);
      }
      aside = null;
      skipped = null;
    };
    for (const stretch of this.#stretches) {
      const { from, to } = stretch;
      if ((lifts[next] ?? Infinity) <= from) comeBack();
      while ((lifts[next] ?? Infinity) <= from) {
        thinned.lift();
        next++;
      }
      const side: Side | null = stretch.isWhole ? sideOf(stretch, map, frame, aside) : null;
      if (side === null || side !== aside) comeBack();
      if (side !== null) {
        if (aside === null) {
          add(from);
          add(to - 1);
        } else skipped = stretch;
        aside = side;
      } else if (stretch.isWhole && (stretch.x.most - stretch.x.least) * map.xPerUnit <= hysteresisPx) {
        add(from);
        add(Math.min(stretch.low, stretch.high));
        add(Math.max(stretch.low, stretch.high));
        add(to - 1);
      } else
        for (let i = from; i < to; i++) {
          while ((lifts[next] ?? Infinity) <= i) {
            thinned.lift();
            next++;
          }
          add(i);
        }
      if (thinned.length > cornersMax) return null;
    }
    comeBack();
    thinned.settle();
    return thinned.length > cornersMax ? null : thinned;
  }
}

function stretchOf({ x, y, lifts = [] }: IndexSource, from: number, to: number): Stretch {
  const box = { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity };
  let low = from;
  let high = from;
  let isWhole = !lifts.some((at) => at > from && at < to);
  for (let i = from; i < to; i++) {
    const atX = x[i] ?? Number.NaN;
    const atY = y[i] ?? Number.NaN;
    if (!Number.isFinite(atX) || !Number.isFinite(atY)) {
      isWhole = false;
      continue;
    }
    if (atX < box.left) box.left = atX;
    if (atX > box.right) box.right = atX;
    if (atY < box.bottom) {
      box.bottom = atY;
      low = i;
    }
    if (atY > box.top) {
      box.top = atY;
      high = i;
    }
  }
  return {
    from,
    to,
    x: { least: box.left, most: box.right },
    y: { least: box.bottom, most: box.top },
    low,
    high,
    isWhole,
  };
}

type Side = 'left' | 'right' | 'below' | 'above';

/**
 * The side of the frame that all of it lies on, that of the stretches before it if it can be: whatever is drawn between
 * two readings on one side stays there. y grows downward on a canvas.
 */
function sideOf(
  { x, y }: Stretch,
  map: PixelMap,
  { left, right, top, bottom }: PixelFrame,
  before: Side | null,
): Side | null {
  const lies = {
    left: map.xOffset + x.most * map.xPerUnit < left,
    right: map.xOffset + x.least * map.xPerUnit > right,
    below: map.yOffset + y.most * map.yPerUnit > bottom,
    above: map.yOffset + y.least * map.yPerUnit < top,
  };
  if (before !== null && lies[before]) return before;
  return lies.left ? 'left' : lies.right ? 'right' : lies.below ? 'below' : lies.above ? 'above' : null;
}
