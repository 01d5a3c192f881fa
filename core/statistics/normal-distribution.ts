/** The standard normal distribution in double precision. Abramowitz and Stegun 26.2, as series and as continued fraction. */

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Inside, the series about zero converges fast; outside, the continued fraction of the tail does. */
const SERIES_MAX = 4;
/** Terms after which the series has long settled inside, and the fraction outside. */
const SERIES_TERMS_MAX = 400;
const FRACTION_TERMS = 60;
/** Beyond this the tail is smaller than the smallest double. */
const TAIL_MAX = 39;

/** Share of a standard normal population below `z`. Absolute error about 1e−16, relative in the tail about 1e−12. */
export function standardNormalShare(z: number): number {
  if (Number.isNaN(z)) return Number.NaN;
  if (Math.abs(z) < SERIES_MAX) return 0.5 + density(z) * seriesAboutZero(z);
  const tail = upperTail(Math.abs(z));
  return z < 0 ? tail : 1 - tail;
}

/** The z below which the share `share` lies. Throws a RangeError unless 0 < share < 1. */
export function standardNormalQuantile(share: number): number {
  if (!(share > 0 && share < 1))
    throw new RangeError(`a share of ${String(share)} is not between zero and one`);
  let below = -40;
  let above = 40;
  for (;;) {
    const middle = (below + above) / 2;
    // The interval can't be halved any further: these are neighbouring doubles.
    if (middle === below || middle === above) return middle;
    if (standardNormalShare(middle) < share) below = middle;
    else above = middle;
  }
}

function density(z: number): number {
  return Math.exp((-z * z) / 2) / ROOT_TWO_PI;
}

/** z + z³/3 + z⁵/15 + …  (26.2.11 without its factor). */
function seriesAboutZero(z: number): number {
  let term = z;
  let sum = z;
  for (let i = 3; i < SERIES_TERMS_MAX; i += 2) {
    term *= (z * z) / i;
    const next = sum + term;
    if (next === sum) return sum;
    sum = next;
  }
  return sum;
}

/** Share above z, z > 0, by the continued fraction z + 1/(z + 2/(z + 3/(z + …))) (26.2.14), from behind. */
function upperTail(z: number): number {
  if (z > TAIL_MAX) return 0;
  let fraction = z;
  for (let i = FRACTION_TERMS; i >= 1; i--) fraction = z + i / fraction;
  return density(z) / fraction;
}
