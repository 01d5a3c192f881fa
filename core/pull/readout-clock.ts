/**
 * The readout's own clock as the time of a curve. Lines wait in adapters and drivers and arrive in bursts, so
 * where a readout stamps its lines its stamps are better intervals than the times of arrival.
 */

/** Whether stamps can be the time of a curve: none is missing, none goes backwards, and they move. */
export function isClock(stampsS: Float64Array): boolean {
  const first = stampsS[0];
  const last = stampsS.at(-1);
  if (first === undefined || last === undefined || !(last > first)) return false;
  let before = first;
  for (const stamp of stampsS) {
    // A NaN is not at or above anything.
    if (!(stamp >= before)) return false;
    before = stamp;
  }
  return true;
}
