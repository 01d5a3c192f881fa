/** Rounding before judging: the tie rules of the standards, and the one that only ever rounds down. */
import type { Exact } from '../quantity/exact.ts';
import { roundExact } from '../quantity/round-exact.ts';

export type PackTieRule = 'half-even' | 'half-up' | 'down';

export const TIE_WORDS = {
  'half-even': 'halves to even',
  'half-up': 'halves up',
  down: 'down',
} as const satisfies Readonly<Record<PackTieRule, string>>;

/**
 * Rounds to a positive step. `half-even`: ASTM E29, ISO 80000-1 Annex B rule A; `half-up`: away from zero; `down`:
 * always to the multiple below (IS 2:1960 amendment 1 advises it for a minimum).
 */
export function roundForJudging(value: Exact, step: Exact, tie: PackTieRule): Exact {
  return tie === 'down' ? value.div(step).floor().mul(step) : roundExact(value, step, tie).value;
}
