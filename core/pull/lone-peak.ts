/**
 * The largest force as it is told while a pull runs and kept at its end. One garbled reading (a digit too many, two
 * lines glued together) must not become the peak: a reading that stands alone far above its neighbours on both sides
 * counts only once one of them confirms it. It stays recorded as it was sent, whatever is told of the peak. A reading
 * outside the range of its profile has no force here, and is never looked at.
 */
import type { SeenReading } from './detectors.ts';

export interface Peak {
  readonly forceN: number;
  readonly seq: number;
  readonly elapsedUs: number;
}

/**
 * A neighbour at or below this part of a reading doesn't confirm it: the reading is two and a half times as high or
 * more. No specimen takes up such a load and loses it again between three readings of a record worth its name (common
 * practice, no source). Results, which know the whole curve, leave out much smaller spikes.
 */
export const LONE_PART = 0.4;
/** In a record of fewer readings no neighbourhood tells a garbled reading from a coarse record: the largest counts. */
export const READINGS_TO_TELL_MIN = 8;

export interface WatchedPeak {
  /** The largest reading that a neighbour confirmed. */
  readonly sure: Peak | null;
  /** The last reading, where it is larger and stands far above the one before: the next one decides. */
  readonly doubtful: Peak | null;
  /** Force of the last reading that is not in doubt; null before there is one. */
  readonly beforeN: number | null;
}
export const NO_PEAK: WatchedPeak = { sure: null, doubtful: null, beforeN: null };

/** One reading more; `part` as LONE_PART. A reading without a force neither confirms nor refutes. */
export function watchedPeak(watched: WatchedPeak, reading: SeenReading, part: number): WatchedPeak {
  const { forceN } = reading;
  if (Number.isNaN(forceN)) return watched;
  const { doubtful } = watched;
  const confirmed = doubtful !== null && bearOut(doubtful.forceN, forceN, part) ? doubtful : null;
  const sure = largerPeak(watched.sure, confirmed);
  const beforeN = confirmed?.forceN ?? watched.beforeN;
  const isBelieved =
    (sure !== null && forceN <= sure.forceN) || (beforeN !== null && bearOut(beforeN, forceN, part));
  return isBelieved
    ? { sure: largerPeak(sure, peakOf(reading)), doubtful: null, beforeN: forceN }
    : { sure, doubtful: peakOf(reading), beforeN };
}

/**
 * Whether two readings beside each other bear each other out: a garbled one confirms neither what is far below nor what
 * is far above it. At rest, about zero, nothing is far above anything.
 */
function bearOut(aN: number, bN: number, part: number): boolean {
  const higherN = Math.max(aN, bN);
  return higherN <= 0 || Math.min(aN, bN) > part * higherN;
}

/** The larger of two; the earlier where they are equal. */
export function largerPeak(peak: Peak | null, next: Peak | null): Peak | null {
  if (peak === null || next === null) return peak ?? next;
  return next.forceN > peak.forceN ? next : peak;
}

export const peakOf = ({ forceN, seq, elapsedUs }: SeenReading): Peak => ({ forceN, seq, elapsedUs });
