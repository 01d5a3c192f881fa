/** Points of a curve in the order in which they were recorded, as pictures and comparisons take them. */
export interface RecordedPoints {
  readonly length: number;
  /** NaN where there is no value. */
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  /** Readings before which nothing was received, ascending: there the pen is lifted. */
  readonly lifts?: readonly number[];
}
