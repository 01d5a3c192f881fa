/** Rates over about the last second, for the figures on the screen; no result is made from them. */

const WINDOW_US = 1_000_000;
const POINTS_MAX = 4_096;
/** Closer points make no better rate over a second. */
const POINT_DISTANCE_US = 5_000;

interface Point {
  readonly elapsedUs: number;
  readonly value: number;
}

export class RecentRate {
  #points: Point[] = [];

  push(elapsedUs: number, value: number): void {
    if (Number.isNaN(value)) return;
    const last = this.#points.at(-1);
    if (last !== undefined && elapsedUs - last.elapsedUs < POINT_DISTANCE_US) return;
    this.#points.push({ elapsedUs, value });
    if (this.#points.length > POINTS_MAX) this.#points = this.#points.slice(-POINTS_MAX / 2);
  }

  /** Units a second between the oldest and the newest value of the window; null without two moments. */
  perS(nowUs: number): number | null {
    const last = this.#points.at(-1);
    if (last === undefined || nowUs - last.elapsedUs > WINDOW_US) return null;
    const first = this.#points[this.#firstAtOrAfter(last.elapsedUs - WINDOW_US)];
    if (first === undefined || first.elapsedUs === last.elapsedUs) return null;
    return ((last.value - first.value) / (last.elapsedUs - first.elapsedUs)) * 1e6;
  }

  /** Index of the first point that is not older; times only grow. */
  #firstAtOrAfter(elapsedUs: number): number {
    let from = 0;
    let to = this.#points.length;
    while (from < to) {
      const middle = (from + to) >> 1;
      if ((this.#points[middle]?.elapsedUs ?? elapsedUs) < elapsedUs) from = middle + 1;
      else to = middle;
    }
    return from;
  }
}
