/**
 * The one-sided tolerance factor k of a normal population: with confidence γ, at least the share p of the
 * population lies above x̄ − k·s. Exact: k = t'(γ; n − 1, z_p·√n) / √n with the noncentral t distribution
 * (NIST/SEMATECH e-Handbook, 7.2.6.3, "one-sided tolerance intervals").
 *
 * Instead of the noncentral t as such we solve the equation that defines it. With X = s/σ and Z = (x̄ − μ)·√n/σ,
 * the bound holds where Z ≤ √n·(k·X − z_p), so γ = E[ Φ(√n·(k·X − z_p)) ], and X has the density
 * x^(ν−1)·exp(−ν·x²/2) up to a factor, ν = n − 1. In u = ln x that is a smooth bell, for which the trapezoid rule
 * is exact to rounding.
 */
import { standardNormalQuantile, standardNormalShare } from './normal-distribution.ts';

export interface ToleranceClaim {
  /** Specimens, at least 2. */
  readonly count: number;
  /** Share of the population that the bound is to hold for, 0.9, 0.95, 0.99. */
  readonly coverage: number;
  /** Confidence that it does, 0.95. */
  readonly confidence: number;
}

/** Beyond this the factor differs from z_p by less than any strength is known. */
export const TOLERANCE_COUNT_MAX = 1_000_000;

/** Step in u, as part of the bell's width; halving it changes the factor by less than 1e−12. */
const STEP = 0.04;
/** exp(−45) is 3e−20: what lies further out doesn't change a double. */
const LOG_WEIGHT_MIN = -45;
/** Halvings of the interval for k: its width falls below the last digit of a double. */
const HALVINGS = 200;

/** Throws a RangeError where the claim makes no sense. */
export function oneSidedToleranceFactor({ count, coverage, confidence }: ToleranceClaim): number {
  if (!Number.isInteger(count) || count < 2 || count > TOLERANCE_COUNT_MAX)
    throw new RangeError(
      `${String(count)} specimens: between 2 and ${String(TOLERANCE_COUNT_MAX)} are needed`,
    );
  for (const share of [coverage, confidence])
    if (!(share > 0 && share < 1)) throw new RangeError(`${String(share)} is not between zero and one`);
  const z = standardNormalQuantile(coverage);
  const root = Math.sqrt(count);
  const spread = spreadRatio(count - 1);
  const confidenceOf = (k: number): number =>
    spread.reduce((sum, { ratio, weight }) => sum + weight * standardNormalShare(root * (k * ratio - z)), 0);
  let below = z - 1;
  let above = z + 1;
  while (confidenceOf(below) > confidence) below -= 2 * (above - below);
  while (confidenceOf(above) < confidence) above += 2 * (above - below);
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (below + above) / 2;
    if (middle === below || middle === above) break;
    if (confidenceOf(middle) < confidence) below = middle;
    else above = middle;
  }
  return (below + above) / 2;
}

interface Weighted {
  /** s / σ. */
  readonly ratio: number;
  /** Sums up to one. */
  readonly weight: number;
}

/** The distribution of s/σ for ν degrees of freedom, as points with weights. */
function spreadRatio(degreesOfFreedom: number): Weighted[] {
  const step = STEP / Math.sqrt(degreesOfFreedom);
  const logWeight = (u: number): number => degreesOfFreedom * (u - Math.expm1(2 * u) / 2);
  const points: Weighted[] = [];
  for (const direction of [1, -1])
    for (let i = direction === 1 ? 0 : 1; ; i++) {
      const u = direction * i * step;
      const log = logWeight(u);
      if (log < LOG_WEIGHT_MIN) break;
      points.push({ ratio: Math.exp(u), weight: Math.exp(log) });
    }
  const total = points.reduce((sum, point) => sum + point.weight, 0);
  return points.map(({ ratio, weight }) => ({ ratio, weight: weight / total }));
}
