/** The standard normal distribution function, also far out in its tails. */

const SERIES_TERMS_MAX = 200;
const FRACTION_STEPS_MAX = 300;
/** Below this the series converges quickly, above it the continued fraction does. */
const SERIES_UP_TO = 2.5;
const SMALLEST = 1e-300;

/** Φ(z): the probability that a standard normal variable is at most z. */
export function normalDistribution(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('the argument of the normal distribution is not a number');
  const x = Math.abs(z) / Math.SQRT2;
  const tail = 0.5 * complementaryErrorFunction(x);
  return z < 0 ? tail : 1 - tail;
}

/** erfc(x) for x ≥ 0: Abramowitz and Stegun 7.1.6 (series) and 7.1.14 (continued fraction). */
function complementaryErrorFunction(x: number): number {
  return x < SERIES_UP_TO ? 1 - errorFunctionBySeries(x) : byContinuedFraction(x);
}

function errorFunctionBySeries(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < SERIES_TERMS_MAX && term > sum * 1e-17; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
}

/** √π e^(x²) erfc(x) = 1/(x + (1/2)/(x + (2/2)/(x + (3/2)/(x + …)))), evaluated by Lentz's method. */
function byContinuedFraction(x: number): number {
  let value = x;
  let numerator = x;
  let denominator = 0;
  for (let n = 1; n < FRACTION_STEPS_MAX; n++) {
    const a = n / 2;
    denominator = 1 / Math.max(x + a * denominator, SMALLEST);
    numerator = x + a / numerator;
    const change = numerator * denominator;
    value *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * value);
}
