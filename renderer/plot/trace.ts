/** The picture of one curve on one plot: follows growing columns, thins what is new, starts over when the map changes by more than a little. */
import { CORNERS_OF_ONE_MAX, CurveIndex, type PixelFrame } from '../../core/curve/curve-index.ts';
import { CORNERS_MAX, HYSTERESIS_PX, type PixelMap, ThinnedTrace } from '../../core/curve/thinning.ts';

/** A column of values and how they are shown: value shown = raw × factor + shift. NaN where there is none. */
export interface ShownColumn {
  /** May have room beyond the readings held. */
  readonly raw: Float64Array;
  readonly factor: number;
  readonly shift: number;
}

/** What a trace draws from: two columns that grow together. */
export interface TraceSource {
  /** Whose columns they are: those of another are drawn from their beginning. */
  readonly of?: object;
  readonly length: number;
  /** First reading that is shown. */
  readonly from: number;
  readonly x: ShownColumn;
  readonly y: ShownColumn;
  /** Readings before which the pen is lifted, ascending. */
  readonly lifts: readonly number[];
}

/** What is shown for one reading; NaN where there is nothing. */
export function shownValue({ raw, factor, shift }: ShownColumn, reading: number): number {
  return (raw[reading] ?? Number.NaN) * factor + shift;
}

/** From raw values straight to pixels, so that a million readings cost one multiplication each. */
const rawMap = ({ x, y }: TraceSource, map: PixelMap): PixelMap => ({
  xPerUnit: x.factor * map.xPerUnit,
  xOffset: map.xOffset + x.shift * map.xPerUnit,
  yPerUnit: y.factor * map.yPerUnit,
  yOffset: map.yOffset + y.shift * map.yPerUnit,
});

const sameMap = (a: PixelMap, b: PixelMap): boolean =>
  a.xOffset === b.xOffset &&
  a.xPerUnit === b.xPerUnit &&
  a.yOffset === b.yOffset &&
  a.yPerUnit === b.yPerUnit;

export class Trace {
  #thinned: ThinnedTrace | null = null;
  #from = 0;
  #next = 0;
  #liftCount = 0;
  #of: object | undefined;

  /** The thinned corner points up to the newest reading. */
  follow(source: TraceSource, pixels: PixelMap): ThinnedTrace {
    const map = rawMap(source, pixels);
    let thinned = this.#thinned;
    if (
      thinned === null ||
      source.of !== this.#of ||
      source.from !== this.#from ||
      source.length < this.#next ||
      // A gap may be told after the readings that follow it have been drawn.
      source.lifts.length !== this.#liftCount ||
      (!sameMap(thinned.map, map) && !thinned.moveTo(map))
    )
      thinned = this.#startOver(source, map, HYSTERESIS_PX);
    thinned.unsettle();
    while (!this.#take(thinned, source)) thinned = this.#startOver(source, map, thinned.hysteresisPx * 2);
    thinned.settle();
    return thinned;
  }

  #startOver(source: TraceSource, map: PixelMap, hysteresisPx: number): ThinnedTrace {
    this.#of = source.of;
    this.#from = source.from;
    this.#next = source.from;
    this.#liftCount = source.lifts.length;
    this.#thinned = new ThinnedTrace(map, hysteresisPx);
    return this.#thinned;
  }

  /** Takes what is new; false when that makes too many corners. */
  #take(thinned: ThinnedTrace, { x, y, lifts, length }: TraceSource): boolean {
    const xs = x.raw;
    const ys = y.raw;
    let liftIndex = lifts.findIndex((seq) => seq >= this.#next);
    let nextLift = liftIndex < 0 ? Infinity : (lifts[liftIndex] ?? Infinity);
    for (let i = this.#next; i < length; i++) {
      while (i >= nextLift) {
        thinned.lift();
        nextLift = lifts[++liftIndex] ?? Infinity;
      }
      thinned.add(xs[i] ?? Number.NaN, ys[i] ?? Number.NaN, i);
      if (thinned.length > CORNERS_MAX) return false;
    }
    this.#next = length;
    return true;
  }
}

/** A part of a curve, drawn from its index: what lies outside of the frame takes no points from what is inside. */
export class PartOfTrace {
  #index: CurveIndex | null = null;
  #of: TraceSource | null = null;

  thin(source: TraceSource, pixels: PixelMap, frame: PixelFrame): ThinnedTrace {
    const before = this.#of;
    const isSame =
      before !== null &&
      source.of === before.of &&
      source.length === before.length &&
      source.from === before.from &&
      source.x.raw === before.x.raw &&
      source.y.raw === before.y.raw &&
      source.lifts.length === before.lifts.length;
    this.#of = source;
    const index = isSame && this.#index !== null ? this.#index : indexOf(source);
    this.#index = index;
    return index.thin(rawMap(source, pixels), frame, CORNERS_OF_ONE_MAX);
  }
}

const indexOf = ({ x, y, length, from, lifts }: TraceSource): CurveIndex =>
  new CurveIndex({ length, x: x.raw, y: y.raw, from, lifts: lifts.filter((at) => at > from && at < length) });

/** The corner point nearest to a place on the canvas, in pixels; -1 where there is none. */
export function nearestCorner(trace: ThinnedTrace, x: number, y: number): number {
  let best = -1;
  let least = Infinity;
  for (let i = 0; i < trace.length; i++) {
    const dx = (trace.x[i] ?? NaN) - x;
    const dy = (trace.y[i] ?? NaN) - y;
    const squared = dx * dx + dy * dy;
    if (squared < least) {
      least = squared;
      best = i;
    }
  }
  return best;
}
