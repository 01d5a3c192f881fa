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

/** Bits kept of a quotient before it is made a double: 53, a guard and room for the sticky last bit. */
const QUOTIENT_BITS = 66n;

/**
 * The double nearest to an exact value (ties to even). Beyond the range of doubles ±Infinity or 0.
 * The quotient of two converted big integers would be rounded three times and can be one unit off.
 */
export function toNumber(value: Exact): number {
  const { n, d, s } = value;
  if (n === 0n) return 0;
  const shift = QUOTIENT_BITS - BigInt(n.toString(2).length - d.toString(2).length);
  const top = shift >= 0n ? n << shift : n;
  const bottom = shift >= 0n ? d : d << -shift;
  const quotient = top / bottom;
  // A remainder makes the last bit one, so that a value just above a tie isn't taken for the tie.
  const sticky = top % bottom === 0n ? quotient : quotient | 1n;
  const magnitude = scaledByTwo(Number(sticky), -Number(shift));
  return s < 0n ? -magnitude : magnitude;
}

/** value × 2^exponent in two steps, so that 2^exponent itself stays within the range of doubles. */
function scaledByTwo(value: number, exponent: number): number {
  const half = Math.trunc(exponent / 2);
  return value * 2 ** half * 2 ** (exponent - half);
}
