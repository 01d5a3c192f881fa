/** Rounding on exact values, in one step: 2.15 to 0.1 is 2.2 although the nearest double lies below 2.15. */
import { type Exact, exactFromDecimal, exactRatio } from './exact.ts';

/** What happens to a value that lies exactly halfway between two steps. */
export const TIE_RULES = ['half-even', 'half-up'] as const;
export type TieRule = (typeof TIE_RULES)[number];

export interface RoundedExact {
  readonly value: Exact;
  /** With exactly the digits that the step leaves: 28.0, not 28. */
  readonly text: string;
  readonly step: Exact;
}

/**
 * Rounds to the nearest whole multiple of a step. "half-even": a tie goes to the even multiple (ASTM E29,
 * ISO 80000-1 rule A); "half-up": away from zero. Throws a RangeError unless the step is greater than zero.
 */
export function roundExact(value: Exact, step: Exact, ties: TieRule): RoundedExact {
  if (step.compare(0) <= 0) throw new RangeError('a rounding step must be greater than zero');
  const steps = value.abs().div(step);
  const below = steps.floor();
  const half = exactRatio(1n, 2n);
  const beyond = steps.sub(below).compare(half);
  const up = beyond > 0 || (beyond === 0 && (ties === 'half-up' || !below.mod(2).equals(0)));
  const whole = up ? below.add(1) : below;
  const magnitude = whole.mul(step);
  const rounded = value.compare(0) < 0 ? magnitude.neg() : magnitude;
  return { value: rounded, text: decimalText(rounded, decimalsOf(step)), step };
}

/** Rounds to a number of significant digits. Zero stays zero. */
export function roundSignificant(value: Exact, digits: number, ties: TieRule): RoundedExact {
  if (value.equals(0)) return { value, text: '0', step: exactRatio(1n, 1n) };
  // The step is the power of ten that leaves `digits` digits: 10^(digits-1) ≤ |value|/step < 10^digits.
  const top = exactRatio(10n ** BigInt(digits), 1n);
  const bottom = exactRatio(10n ** BigInt(digits - 1), 1n);
  const magnitude = value.abs();
  // Begun near it by counting digits: every step of exact arithmetic with long numerators is dear.
  const exponent = String(magnitude.n).length - String(magnitude.d).length - digits + 1;
  const power = 10n ** BigInt(Math.abs(exponent));
  let step = exponent < 0 ? exactRatio(1n, power) : exactRatio(power, 1n);
  while (magnitude.div(step).compare(top) >= 0) step = step.mul(10);
  while (magnitude.div(step).compare(bottom) < 0) step = step.div(10);
  return roundExact(value, step, ties);
}

/** The exact step of a decimal text ("0.5", "100"). Throws a RangeError where it is none. */
export function stepFromText(text: string): Exact {
  const step = exactFromDecimal(text);
  if (step === null) throw new RangeError(`"${text}" is not a decimal step`);
  return step;
}

/** Decimals that a step needs: 0.5 → 1, 0.02 → 2, 100 → 0. A step is a decimal by its making. */
function decimalsOf(step: Exact): number {
  let decimals = 0;
  let scaled = step;
  while (!scaled.mod(1).equals(0) && decimals < DECIMALS_MAX) {
    scaled = scaled.mul(10);
    decimals += 1;
  }
  return decimals;
}
/** No step is finer than this; a step that is no decimal fraction (1/3) stops here. */
const DECIMALS_MAX = 20;

/** Exact decimal text with a fixed number of decimals; the value must be a whole multiple of the last one. */
function decimalText(value: Exact, decimals: number): string {
  const scaled = value.abs().mul(exactRatio(10n ** BigInt(decimals), 1n));
  const whole = (scaled.n / scaled.d).toString().padStart(decimals + 1, '0');
  const sign = value.compare(0) < 0 ? '-' : '';
  return decimals === 0 ? sign + whole : `${sign}${whole.slice(0, -decimals)}.${whole.slice(-decimals)}`;
}
