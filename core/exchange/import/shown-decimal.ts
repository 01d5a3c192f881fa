/** A number as text, as mantissa and exponent: the form in which the archive keeps what a readout or a file showed. */
import type { ShownValue } from '../../contract/reading.ts';

type Shown = Pick<ShownValue, 'mantissa' | 'exponent' | 'exact'>;

const NUMBER = /^([+-]?)(\d*)\.?(\d*)(?:[eE]([+-]?\d{1,3}))?$/;
const EXPONENT_MAX = 120;
const EXACT_DIGITS_MAX = 60;

/** All digits where a safe integer holds them; otherwise the nearest, and the digits themselves beside it. */
export function shownDecimal(plain: string): Shown {
  const [, sign = '', whole = '', decimals = '', power = '0'] = NUMBER.exec(plain) ?? [];
  const digits = (whole + decimals).replace(/^0+(?=\d)/, '');
  const exponent = Number(power) - decimals.length;
  const signed = (text: string): number => (sign === '-' ? -Number(text) : Number(text));
  if (Number.isSafeInteger(Number(digits)) && Math.abs(exponent) <= EXPONENT_MAX)
    return { mantissa: signed(digits || '0') + 0, exponent };
  return { ...nearest(digits, exponent, signed), ...exactText(sign, whole, decimals, power) };
}

function nearest(digits: string, exponent: number, signed: (text: string) => number): Shown {
  const kept = digits.slice(0, 15);
  const shifted = exponent + digits.length - kept.length;
  if (shifted > EXPONENT_MAX || shifted < -EXPONENT_MAX) return { mantissa: 0, exponent: 0 };
  return { mantissa: signed(kept), exponent: shifted };
}

function exactText(sign: string, whole: string, decimals: string, power: string): { exact?: string } {
  if (Number(power) !== 0 || whole.length > EXACT_DIGITS_MAX || decimals.length > EXACT_DIGITS_MAX) return {};
  return { exact: `${sign === '-' ? '-' : ''}${whole || '0'}${decimals === '' ? '' : `.${decimals}`}` };
}
