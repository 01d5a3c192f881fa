/**
 * How far a broken pull is drawn. Its record is held open for minutes after the break: the extensometer is taken off
 * and grips are opened in it, and a picture of all that would leave the pull a corner. Nothing is cut off the record.
 */

/** A reading below this part of the peak bears no load worth drawing: cells off zero and grips' weight stay below. */
export const LOADED_PART = 0.1;
/** Seconds drawn after the last load. */
export const DRAWN_AFTER_LOAD_S = 5;
/** Seconds drawn before the trigger. */
export const DRAWN_BEFORE_START_S = 5;

interface Timed {
  readonly length: number;
  readonly timeS?: Float64Array;
  readonly forceN?: Float64Array;
}

/** Readings to draw, from the first on; all of them where the curve has no load or no time. */
export function drawnLength({ length, timeS, forceN }: Timed): number {
  if (timeS === undefined || forceN === undefined) return length;
  let peakN = 0;
  let last = -1;
  for (let i = 0; i < length; i++) {
    const force = forceN[i] ?? Number.NaN;
    if (force > peakN) peakN = force;
    if (force >= LOADED_PART * peakN && force > 0) last = i;
  }
  if (last < 0) return length;
  const endS = (timeS[last] ?? Number.NaN) + DRAWN_AFTER_LOAD_S;
  for (let i = last + 1; i < length; i++) if ((timeS[i] ?? Number.NaN) > endS) return i;
  return length;
}
