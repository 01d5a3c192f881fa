/**
 * Thinning for pictures only (screen, export, overview): a million readings become a few thousand corner points that
 * draw the same picture. Figures and results never come from here.
 *
 * Readings that stay within half a pixel sideways of where a run began form one run; of each run the first, the
 * lowest, the highest and the last are kept, at their true place and in the order of time. Without that
 * hysteresis, noise in x would begin a new run at every reading; snapping x to pixel columns would draw stairs.
 */

/** A run ends when a reading lies further than this from the run's first, in canvas pixels. */
export const HYSTERESIS_PX = 0.5;
/** More corner points than this make drawing slow; the hysteresis is then doubled and the trace thinned again. */
export const CORNERS_MAX = 24_000;

/** Straight-line map from values to canvas pixels: px = offset + value × perUnit. */
export interface PixelMap {
  readonly xOffset: number;
  readonly xPerUnit: number;
  readonly yOffset: number;
  readonly yPerUnit: number;
}

/** A trace is moved to another map as long as its hysteresis stays within so much of what it was thinned with. */
const MOVED_RATIO_MAX = 1.5;

export class ThinnedTrace {
  #map: PixelMap;
  #hysteresisPx: number;
  readonly #thinnedWithPx: number;
  /** Canvas pixels of the corner points, and the reading that each stands for. Only `length` of them count. */
  x = new Float64Array(1024);
  y = new Float64Array(1024);
  reading = new Int32Array(1024);
  /** 1 where the line is taken up anew: the first corner, and the first after a gap. */
  lifts = new Uint8Array(1024);
  length = 0;

  #run = { open: false, anchor: 0, first: 0, low: 0, high: 0, last: 0 };
  /** Pixels of the run's four readings, by the same names. */
  readonly #at = { firstX: 0, firstY: 0, lowX: 0, lowY: 0, highX: 0, highY: 0, lastX: 0, lastY: 0 };
  #lift = true;

  constructor(map: PixelMap, hysteresisPx: number = HYSTERESIS_PX) {
    this.#map = map;
    this.#hysteresisPx = hysteresisPx;
    this.#thinnedWithPx = hysteresisPx;
  }

  get map(): PixelMap {
    return this.#map;
  }

  get hysteresisPx(): number {
    return this.#hysteresisPx;
  }

  /**
   * Brings the corner points to a map of nearly the same scale, as other units or an axis that grew a little give:
   * which readings they stand for depends on the scale of x alone, by the hysteresis, which moves with it. False, and
   * nothing is changed, where that would become too coarse or too fine; the trace is then to be thinned anew.
   */
  moveTo(map: PixelMap): boolean {
    const before = this.#map;
    const byX = map.xPerUnit / before.xPerUnit;
    const byY = map.yPerUnit / before.yPerUnit;
    const hysteresisPx = this.#hysteresisPx * byX;
    const ratio = hysteresisPx / this.#thinnedWithPx;
    // An axis turned round would make the highest reading of a run its lowest.
    if (!(byY > 0 && byY < Infinity && ratio >= 1 / MOVED_RATIO_MAX && ratio <= MOVED_RATIO_MAX))
      return false;
    const fromX = map.xOffset - before.xOffset * byX;
    const fromY = map.yOffset - before.yOffset * byY;
    for (let i = 0; i < this.length; i++) {
      this.x[i] = fromX + (this.x[i] ?? 0) * byX;
      this.y[i] = fromY + (this.y[i] ?? 0) * byY;
    }
    const at = this.#at;
    this.#run.anchor = fromX + this.#run.anchor * byX;
    for (const name of ['firstX', 'lowX', 'highX', 'lastX'] as const) at[name] = fromX + at[name] * byX;
    for (const name of ['firstY', 'lowY', 'highY', 'lastY'] as const) at[name] = fromY + at[name] * byY;
    this.#map = map;
    this.#hysteresisPx = hysteresisPx;
    return true;
  }

  /** Takes the next reading. A value that isn't there (NaN) lifts the pen. */
  add(valueX: number, valueY: number, reading: number): void {
    const x = this.#map.xOffset + valueX * this.#map.xPerUnit;
    const y = this.#map.yOffset + valueY * this.#map.yPerUnit;
    if (Number.isNaN(x) || Number.isNaN(y)) {
      this.lift();
      return;
    }
    const run = this.#run;
    const at = this.#at;
    if (run.open && Math.abs(x - run.anchor) > this.#hysteresisPx) this.#closeRun();
    if (!run.open) {
      run.open = true;
      run.anchor = x;
      run.first = run.low = run.high = run.last = reading;
      at.firstX = at.lowX = at.highX = at.lastX = x;
      at.firstY = at.lowY = at.highY = at.lastY = y;
      return;
    }
    run.last = reading;
    at.lastX = x;
    at.lastY = y;
    // On a canvas y grows downward; low and high are meant on the canvas.
    if (y < at.lowY) {
      run.low = reading;
      at.lowX = x;
      at.lowY = y;
    } else if (y > at.highY) {
      run.high = reading;
      at.highX = x;
      at.highY = y;
    }
  }

  /** Lifts the pen: what comes next is not joined to what came before. */
  lift(): void {
    this.#closeRun();
    this.#lift = true;
  }

  /** Corner points of the run that is still open, so that the line ends at the last reading. Call after `length`. */
  settle(): void {
    const { open } = this.#run;
    if (!open) return;
    const lift = this.#lift;
    const length = this.length;
    this.#emitRun();
    this.#unsettled = { length, lift };
  }

  /** Corner points that stay as they are when more readings are added. */
  get settledLength(): number {
    return this.#unsettled?.length ?? this.length;
  }

  /** Undoes `settle`, before more readings are added. */
  unsettle(): void {
    if (this.#unsettled === null) return;
    this.length = this.#unsettled.length;
    this.#lift = this.#unsettled.lift;
    this.#unsettled = null;
  }
  #unsettled: { length: number; lift: boolean } | null = null;

  #closeRun(): void {
    if (!this.#run.open) return;
    this.#emitRun();
    this.#run.open = false;
  }

  #emitRun(): void {
    const run = this.#run;
    const at = this.#at;
    this.#corner(at.firstX, at.firstY, run.first);
    const lowFirst = run.low < run.high;
    for (const which of lowFirst ? (['low', 'high'] as const) : (['high', 'low'] as const)) {
      const reading = run[which];
      if (reading === run.first || reading === run.last) continue;
      if (which === 'low') this.#corner(at.lowX, at.lowY, reading);
      else this.#corner(at.highX, at.highY, reading);
    }
    if (run.last !== run.first) this.#corner(at.lastX, at.lastY, run.last);
  }

  #corner(x: number, y: number, reading: number): void {
    if (this.length === this.x.length) this.#grow();
    this.x[this.length] = x;
    this.y[this.length] = y;
    this.reading[this.length] = reading;
    this.lifts[this.length] = this.#lift ? 1 : 0;
    this.#lift = false;
    this.length++;
  }

  #grow(): void {
    const grow = <A extends Float64Array | Int32Array | Uint8Array>(from: A, to: A): A => {
      to.set(from);
      return to;
    };
    const size = this.x.length * 2;
    this.x = grow(this.x, new Float64Array(size));
    this.y = grow(this.y, new Float64Array(size));
    this.reading = grow(this.reading, new Int32Array(size));
    this.lifts = grow(this.lifts, new Uint8Array(size));
  }
}
