/**
 * Exact rational arithmetic at the edges: what somebody typed, what a unit is, where a limit lies.
 * Binary fractions would turn 0.95 × 70 000 psi into something that is not 66 500 psi.
 */
import Fraction from 'fraction.js';

export type Exact = Fraction;

/** Longest decimal text taken as a number; a calliper or a readout never needs more. */
export const DECIMAL_TEXT_LENGTH_MAX = 40;

const DECIMAL = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?$/;

/** The exact value of a plain decimal text ("0.7510", "-3e-4"), or null where the whole text is not one. */
export function exactFromDecimal(text: string): Exact | null {
  if (text.length > DECIMAL_TEXT_LENGTH_MAX || !DECIMAL.test(text)) return null;
  const [mantissa = '', exponentText] = text.toLowerCase().split('e');
  const value = new Fraction(mantissa.replace(/\.$/, '').replace(/^([+-]?)\./, '$10.'));
  if (exponentText === undefined) return value;
  const exponent = Number(exponentText);
  const power = new Fraction(10n ** BigInt(Math.abs(exponent)));
  return exponent < 0 ? value.div(power) : value.mul(power);
}

/** The exact value of a ratio of two whole numbers. Throws a RangeError when the denominator is zero. */
export function exactRatio(numerator: bigint, denominator: bigint): Exact {
  if (denominator === 0n) throw new RangeError('a ratio needs a denominator other than zero');
  return new Fraction(numerator, denominator);
}

/**
 * The exact value that a binary double stands for in people's minds: its shortest decimal text.
 * (66 500.000000000001 stays what it is; 0.1 becomes one tenth.) Throws a RangeError unless finite.
 */
export function exactFromNumber(value: number): Exact {
  if (!Number.isFinite(value)) throw new RangeError(`${String(value)} is not a finite number`);
  const exact = exactFromDecimal(String(value));
  if (exact === null)
    throw new RangeError(
      `${String(value)} has no decimal text of at most ${String(DECIMAL_TEXT_LENGTH_MAX)} characters`,
    );
  return exact;
}

/** The double nearest to an exact value. */
export function toNumber(value: Exact): number {
  return value.valueOf();
}
