/**
 * Coverage factor for about 95 %: k = 2 for many degrees of freedom, below that Student's t for the share of a normal
 * population within ± 2 standard deviations, 95.45 % (GUM, JCGM 100:2008, G.6.4). Computed, not tabulated.
 */
import { standardNormalShare } from '../statistics/normal-distribution.ts';
import { studentFactor } from '../statistics/student-distribution.ts';

/** Share that k = 2 covers for a normal distribution. */
export const COVERED_SHARE = 2 * standardNormalShare(2) - 1;

/** From here on k = 2 is used: the difference is below what two digits of an uncertainty show. */
export const DEGREES_OF_FREEDOM_LARGE = 50;

/**
 * k for effective degrees of freedom; undefined means infinitely many. Broken numbers are cut to the next lower whole
 * one (GUM G.4.1, note 2), at least one. The factor is given to two places, as an uncertainty is stated.
 */
export function coverageFactor(degreesOfFreedom: number | undefined): number {
  if (degreesOfFreedom === undefined || degreesOfFreedom > DEGREES_OF_FREEDOM_LARGE) return 2;
  const whole = Math.max(1, Math.floor(degreesOfFreedom));
  return Math.round(100 * studentFactor(COVERED_SHARE, whole)) / 100;
}
