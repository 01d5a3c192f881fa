/**
 * A channel as the results read it: the recorded column with a zero and a factor, value = (column − zero) · factor.
 * Nothing is copied for it, so an evaluation of millions of readings costs no memory of its own.
 */

export interface Channel {
  readonly column: Float64Array;
  readonly zero: number;
  /** Above zero, so that larger in the column is larger in the channel. */
  readonly factor: number;
}

/** The value of one reading; NaN where it wasn't there or the index is outside. */
export function channelValue({ column, zero, factor }: Channel, index: number): number {
  return ((column[index] ?? Number.NaN) - zero) * factor;
}

/** What the column shows for a value of the channel, for comparisons without converting each reading. */
export function columnValue({ zero, factor }: Channel, value: number): number {
  return value / factor + zero;
}

/** A stretch of readings, `to` excluded. */
export interface IndexRange {
  readonly from: number;
  readonly to: number;
}

/** The nearest reading at or before `index` (not below `from`) that is there in the column; −1 if none. */
export function lastPresent(column: Float64Array, index: number, from: number): number {
  let i = Math.min(index, column.length - 1);
  while (i >= from && Number.isNaN(column[i] ?? Number.NaN)) i -= 1;
  return i >= from ? i : -1;
}
