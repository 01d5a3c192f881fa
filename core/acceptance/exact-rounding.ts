/** Rounding to a step in exact arithmetic: 69.5 ksi is a tie and nothing else. */
import { type Exact, exactRatio } from '../quantity/exact.ts';

export type TieRule = 'half-even' | 'half-up' | 'down';

/**
 * Rounds to the nearest multiple of a positive step. `half-even`: a lone five goes to the even multiple (ASTM E29,
 * ISO 80000-1 Annex B rule A); `half-up`: away from zero for positive values; `down`: always to the multiple below
 * (IS 2:1960 amendment 1 for a minimum).
 */
export function roundExact(value: Exact, step: Exact, tie: TieRule): Exact {
  if (step.compare(0) <= 0) throw new RangeError('a rounding step is greater than zero');
  const steps = value.div(step);
  const below = steps.floor();
  if (tie === 'down') return below.mul(step);
  const beyondHalf = steps.sub(below).compare(exactRatio(1n, 2n));
  const up = beyondHalf > 0 || (beyondHalf === 0 && (tie === 'half-up' || !isEven(below)));
  return (up ? below.add(1) : below).mul(step);
}

function isEven(whole: Exact): boolean {
  return whole.mod(2).compare(0) === 0;
}
