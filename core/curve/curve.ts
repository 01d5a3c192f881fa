/**
 * A curve: the readings of one pull as columns, in the order in which they came. Never sorted, never thinned.
 * Load–extension curves run backwards at times (noise, unloading, break), so no column but time is monotonic.
 */

/** What a channel measures. */
export const QUANTITIES = ['time', 'force', 'extension', 'travel', 'stress', 'strain'] as const;
export type ChannelQuantity = (typeof QUANTITIES)[number];

/** The column of a curve that holds a quantity. */
export const CURVE_COLUMN = {
  time: 'timeS',
  force: 'forceN',
  extension: 'extensionMm',
  travel: 'travelMm',
  stress: 'stressMpa',
  strain: 'strainRatio',
} as const satisfies Record<ChannelQuantity, keyof Curve>;

/** A stretch in which nothing was received; the reading at `beforeIndex` is the first one after it. */
export interface CurveGap {
  readonly beforeIndex: number;
  readonly durationS: number;
  readonly cause: string;
  /** Only the second instrument was silent: readings went on, from some moment on without its values. */
  readonly ofSecond?: true;
}

/**
 * Columns of equal length; a value that was not there (overload, blank, error word, channel missing in that
 * line) is NaN in the column, never 0 and never the value before.
 */
export interface Curve {
  readonly length: number;
  /** Seconds on a monotonic clock; absent in files that have no time. */
  readonly timeS?: Float64Array;
  /** N. Absent where only stress is known. */
  readonly forceN?: Float64Array;
  /** N, of the readout's own peak memory; only where nothing shows the load of the moment. */
  readonly peakForceN?: Float64Array;
  /** mm over the gauge length, from an extensometer. */
  readonly extensionMm?: Float64Array;
  /** mm of crosshead travel: contains frame, grips and slack, and is not a gauge-length strain. */
  readonly travelMm?: Float64Array;
  /** MPa, engineering, only in files that give stress instead of force. */
  readonly stressMpa?: Float64Array;
  /** Plain ratio, engineering, only in files that give strain instead of extension. */
  readonly strainRatio?: Float64Array;
  readonly gaps?: readonly CurveGap[];
}
