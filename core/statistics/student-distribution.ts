/**
 * Student's t distribution for whole degrees of freedom, in closed form: Abramowitz and Stegun 26.7.3 (odd) and
 * 26.7.4 (even), finite sums of cosines of θ = atan(t/√ν).
 */

/** More degrees of freedom than this are never asked for: the sums grow with them. */
export const STUDENT_DEGREES_MAX = 10_000;

/** Share of the population within ± t, t ≥ 0. Throws a RangeError for degrees of freedom that aren't whole and above zero. */
export function studentShareWithin(t: number, degreesOfFreedom: number): number {
  requireDegrees(degreesOfFreedom);
  const angle = Math.atan(t / Math.sqrt(degreesOfFreedom));
  const cosine = Math.cos(angle);
  const odd = degreesOfFreedom % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = degreesOfFreedom === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k <= degreesOfFreedom - 2; k += 2) {
    term *= (cosine * cosine * (k - 1)) / k;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
}

/** The t within ± which the share lies. Throws a RangeError unless 0 < share < 1 and the degrees are whole. */
export function studentFactor(share: number, degreesOfFreedom: number): number {
  requireDegrees(degreesOfFreedom);
  if (!(share > 0 && share < 1))
    throw new RangeError(`a share of ${String(share)} is not between zero and one`);
  let below = 0;
  let above = 1;
  while (studentShareWithin(above, degreesOfFreedom) < share && above < T_MAX) above *= 2;
  for (;;) {
    const middle = (below + above) / 2;
    // Neighbouring doubles: the interval can't be halved any further.
    if (middle <= below || middle >= above) return middle;
    if (studentShareWithin(middle, degreesOfFreedom) < share) below = middle;
    else above = middle;
  }
}

/** Beyond this no share differs from one by anything that a double tells. */
const T_MAX = 2 ** 60;

function requireDegrees(degreesOfFreedom: number): void {
  if (!Number.isInteger(degreesOfFreedom) || degreesOfFreedom < 1 || degreesOfFreedom > STUDENT_DEGREES_MAX)
    throw new RangeError(`${String(degreesOfFreedom)} degrees of freedom: whole ones from 1 are needed`);
}
