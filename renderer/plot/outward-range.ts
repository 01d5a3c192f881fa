/**
 * The range of an axis: fixed before the pull from what is planned, then growing outward only. An axis that
 * follows the data makes a rising load look like a flat line.
 */

/** Ends that read well on a scale, as multiples of a power of ten. */
const GOOD_ENDS = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10] as const;

/** The least good end at or above a positive value. Throws a RangeError otherwise. */
export function goodEnd(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) throw new RangeError(`${String(value)} has no good end`);
  const power = 10 ** Math.floor(Math.log10(value));
  const end = GOOD_ENDS.find((e) => e * power >= value * (1 - 1e-12)) ?? 10;
  return end * power;
}

/** Room kept beyond the value that made an axis grow, so that it doesn't grow at every reading. */
const HEADROOM = 1.25;
/** Room below zero for a load cell's own noise and the kick at the break, as part of the range. */
const BELOW_ZERO = 0.04;

export class OutwardRange {
  #min: number;
  #max: number;

  /** From a little below zero to a good end at or above `plannedMax`. */
  constructor(plannedMax: number) {
    this.#max = goodEnd(plannedMax);
    this.#min = -BELOW_ZERO * this.#max;
  }

  get min(): number {
    return this.#min;
  }
  get max(): number {
    return this.#max;
  }

  /** Grows so that the value lies inside. True when it had to grow. NaN and infinite values are left out. */
  include(value: number): boolean {
    if (!Number.isFinite(value)) return false;
    if (value > this.#max) {
      this.#max = goodEnd(value * HEADROOM);
      return true;
    }
    if (value < this.#min) {
      this.#min = -goodEnd(-value * HEADROOM);
      return true;
    }
    return false;
  }
}
