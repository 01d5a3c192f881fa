/**
 * The grammar of a number in a field: the whole field or nothing. "12.5abc" is not 12.5, and "1,5" is 1.5 only
 * where the comma is declared as the decimal sign.
 *
 *   [+|-] [blanks] digits [decimal sign digits] [e [+|-] digits]      or the same with the sign behind,
 *                                                 or, where declared, "(" the same without sign ")" for minus
 *
 * The result is the exact decimal, as mantissa × 10^exponent.
 */
import { DIGITS_SHOWN_MAX } from '../../core/contract/reading.ts';
import { plainDecimal } from '../../core/pull/decimal-text.ts';

/** More significant digits than this don't fit a safe integer; they are kept beside it as text. */
export const SIGNIFICANT_DIGITS_MAX = 15;
/** Powers of ten beyond this are no reading of any instrument. */
export const EXPONENT_MAX = 60;

export interface NumberStyle {
  readonly decimalSign: '.' | ',';
  readonly groupSign?: ',' | '.' | ' ' | "'" | undefined;
  readonly minusInParentheses?: boolean | undefined;
}

const PLUS = 43;
const MINUS = 45;
const BLANK = 32;
const TAB = 9;
const ZERO = 48;
const NINE = 57;
const OPENING = 40;
const CLOSING = 41;
const LOWER_E = 101;
const UPPER_E = 69;

/** Scans one number at a place in a text. Reused for speed: the results of the last scan are in its fields. */
export class NumberScanner {
  /** Safe integer; valid after a scan that found a number. */
  mantissa = 0;
  exponent = 0;
  /** All digits as plain decimal text, where `mantissa` had to be rounded or cut; null elsewhere. */
  exact: string | null = null;
  readonly #decimalSign: number;
  readonly #groupSign: number;
  readonly #minusInParentheses: boolean;

  constructor({ decimalSign, groupSign, minusInParentheses }: NumberStyle) {
    this.#minusInParentheses = minusInParentheses === true;
    this.#decimalSign = decimalSign.charCodeAt(0);
    this.#groupSign = groupSign === undefined ? -1 : groupSign.charCodeAt(0);
  }

  /**
   * Index behind the number that begins at `start`, or −1 where none does. A number with more than
   * SIGNIFICANT_DIGITS_MAX digits is rounded to so many, half away from zero, and stands whole in `exact`; one with
   * more than DIGITS_SHOWN_MAX digits is none.
   */
  scan(text: string, start: number, end: number): number {
    let at = start;
    let code = at < end ? text.charCodeAt(at) : 0;
    let negative = false;
    let signed = false;
    if (code === OPENING && this.#minusInParentheses) return this.#scanInParentheses(text, start, end);
    if (code === PLUS || code === MINUS) {
      negative = code === MINUS;
      signed = true;
      at++;
      while (at < end && ((code = text.charCodeAt(at)) === BLANK || code === TAB)) at++;
    }
    const firstDigit = at;
    let mantissa = 0;
    let significant = 0;
    let dropped = 0;
    let roundUp = false;
    let digits = 0;
    let decimals = -1;
    let sinceGroup = -1;
    for (; at < end; at++) {
      code = text.charCodeAt(at);
      if (code >= ZERO && code <= NINE) {
        digits++;
        if (decimals >= 0) decimals++;
        else if (sinceGroup >= 0) sinceGroup++;
        if (significant < SIGNIFICANT_DIGITS_MAX) {
          mantissa = mantissa * 10 + (code - ZERO);
          if (mantissa > 0) significant++;
        } else {
          if (dropped === 0) roundUp = code - ZERO >= 5;
          dropped++;
        }
      } else if (code === this.#decimalSign && decimals < 0) {
        if (sinceGroup >= 0 && sinceGroup !== 3) return -1;
        decimals = 0;
      } else if (
        code === this.#groupSign &&
        decimals < 0 &&
        digits > 0 &&
        this.#groupFollows(text, at, end)
      ) {
        if (sinceGroup >= 0 ? sinceGroup !== 3 : digits > 3) return -1;
        sinceGroup = 0;
      } else break;
    }
    if (digits === 0) return -1;
    if (decimals < 0 && sinceGroup >= 0 && sinceGroup !== 3) return -1;
    const behindDigits = at;
    let exponent = dropped - Math.max(decimals, 0);
    if (at < end && (code === LOWER_E || code === UPPER_E)) {
      const behind = this.#scanPower(text, at + 1, end);
      if (behind !== -1) {
        exponent += this.#power;
        at = behind;
      }
    }
    if (!signed && at < end && ((code = text.charCodeAt(at)) === MINUS || code === PLUS)) {
      negative = code === MINUS;
      at++;
    }
    if (Math.abs(exponent) > EXPONENT_MAX) return -1;
    if (dropped > 0) {
      if (digits > DIGITS_SHOWN_MAX) return -1;
      const all = digitsOf(text.slice(firstDigit, behindDigits));
      this.exact = plainDecimal(negative, all, exponent - dropped);
    } else this.exact = null;
    if (roundUp) mantissa++;
    this.mantissa = negative && mantissa !== 0 ? -mantissa : mantissa;
    this.exponent = exponent;
    return at;
  }

  /** "(12.3)", "( 12.3 )": a sign of its own has no place in it. */
  #scanInParentheses(text: string, start: number, end: number): number {
    const from = behindBlanks(text, start + 1, end);
    const first = from < end ? text.charCodeAt(from) : 0;
    if (first === PLUS || first === MINUS || first === OPENING) return -1;
    const behind = this.scan(text, from, end);
    if (behind === -1) return -1;
    const last = text.charCodeAt(behind - 1);
    const closing = behindBlanks(text, behind, end);
    if (last === PLUS || last === MINUS || closing >= end || text.charCodeAt(closing) !== CLOSING) return -1;
    if (this.mantissa !== 0) this.mantissa = -this.mantissa;
    if (this.exact !== null) this.exact = `-${this.exact}`;
    return closing + 1;
  }

  #power = 0;

  /** Index behind the power of ten, or −1 where what follows the "e" is none ("12 each"). */
  #scanPower(text: string, start: number, end: number): number {
    let at = start;
    let negative = false;
    const sign = at < end ? text.charCodeAt(at) : 0;
    if (sign === PLUS || sign === MINUS) {
      negative = sign === MINUS;
      at++;
    }
    const firstDigit = at;
    let power = 0;
    while (at < end && at - firstDigit < 4) {
      const code = text.charCodeAt(at);
      if (code < ZERO || code > NINE) break;
      power = power * 10 + (code - ZERO);
      at++;
    }
    // "5.9E+00.0004": the E is a label, not a power.
    if (at === firstDigit || (at < end && text.charCodeAt(at) === this.#decimalSign)) return -1;
    this.#power = negative ? -power : power;
    return at;
  }

  /** A group sign counts only before three digits: a blank behind the number is not one. */
  #groupFollows(text: string, at: number, end: number): boolean {
    if (at + 3 >= end) return false;
    for (let next = at + 1; next <= at + 3; next++) {
      const code = text.charCodeAt(next);
      if (code < ZERO || code > NINE) return false;
    }
    return true;
  }
}

function behindBlanks(text: string, start: number, end: number): number {
  let at = start;
  while (at < end && (text.charCodeAt(at) === BLANK || text.charCodeAt(at) === TAB)) at++;
  return at;
}

/** The digits of a number, without decimal and group signs and without zeros before the first. */
const digitsOf = (text: string): string => text.replace(/\D/g, '').replace(/^0+(?=\d)/, '');

/** The exact decimal of a whole field (blanks around it cut), or null where the field is not one number. */
export function decimalOfField(
  field: string,
  style: NumberStyle,
): { readonly mantissa: number; readonly exponent: number } | null {
  const text = field.trim();
  const scanner = new NumberScanner(style);
  if (scanner.scan(text, 0, text.length) !== text.length || text.length === 0) return null;
  return { mantissa: scanner.mantissa, exponent: scanner.exponent };
}
