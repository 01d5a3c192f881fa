/** The picture of one curve on one plot: follows growing columns, thins what is new, starts over when the map changes. */
import { CORNERS_MAX, HYSTERESIS_PX, type PixelMap, ThinnedTrace } from './thinning.ts';

/** What a trace draws from: two columns that grow together. Values in display units; NaN where there is none. */
export interface TraceSource {
  readonly length: number;
  readonly from: number;
  x(index: number): number;
  y(index: number): number;
  /** Changes whenever values already given out would now be different (another unit, another zero of time). */
  readonly basis: string;
  /** Readings before which the pen is lifted, ascending. */
  readonly lifts: readonly number[];
}

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
  #basis = '';

  /** The thinned corner points up to the newest reading. */
  follow(source: TraceSource, map: PixelMap): ThinnedTrace {
    const stale =
      this.#thinned === null ||
      !sameMap(this.#thinned.map, map) ||
      source.from !== this.#from ||
      source.basis !== this.#basis ||
      source.length < this.#next ||
      // A gap may be told after the readings that follow it have been drawn.
      source.lifts.length !== this.#liftCount;
    let thinned = this.#thinned;
    if (stale || thinned === null) {
      thinned = new ThinnedTrace(map, HYSTERESIS_PX);
      this.#next = source.from;
      this.#from = source.from;
      this.#liftCount = source.lifts.length;
      this.#basis = source.basis;
    }
    thinned.unsettle();
    this.#thinned = this.#take(thinned, source);
    this.#thinned.settle();
    return this.#thinned;
  }

  #take(thinned: ThinnedTrace, source: TraceSource): ThinnedTrace {
    let into = thinned;
    let lift = source.lifts.findIndex((seq) => seq >= this.#next);
    for (let i = this.#next; i < source.length; i++) {
      while (lift >= 0 && (source.lifts[lift] ?? Infinity) <= i) {
        into.lift();
        lift++;
      }
      into.add(source.x(i), source.y(i), i);
      if (into.length > CORNERS_MAX) {
        into = new ThinnedTrace(into.map, into.hysteresisPx * 2);
        i = source.from - 1;
        lift = source.lifts.length > 0 ? 0 : -1;
      }
    }
    this.#next = source.length;
    return into;
  }
}

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
