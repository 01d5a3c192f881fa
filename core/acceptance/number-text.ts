/** Exact values written for sentences, with as many digits as tell them apart from what they are compared with. */
import { type Exact, toNumber } from '../quantity/exact.ts';
import type { UnitSymbol } from '../quantity/units.ts';

/** Digits behind which nobody looks; an exact decimal with no more is written out whole. */
const DECIMALS_WHOLE_MAX = 4;
const SIGNIFICANT_MIN = 6;
const SIGNIFICANT_MAX = 15;

/** "66 500 psi", "460.75 MPa", "69.9085 ksi" (six figures where the decimal never ends). */
export function exactText(value: Exact, unit: UnitSymbol, apartFrom: readonly Exact[] = []): string {
  return `${exactNumberText(value, apartFrom)}${unit === '%' ? ' %' : ` ${unit}`}`;
}

export function exactNumberText(value: Exact, apartFrom: readonly Exact[] = []): string {
  const whole = finiteDecimal(value);
  if (whole !== null) return grouped(whole);
  const different = apartFrom.filter((other) => other.compare(value) !== 0).map(toNumber);
  const number = toNumber(value);
  for (let digits = SIGNIFICANT_MIN; digits < SIGNIFICANT_MAX; digits++) {
    const text = plainDecimal(number, digits);
    if (different.every((other) => Number(text) !== other)) return grouped(text);
  }
  return grouped(plainDecimal(number, SIGNIFICANT_MAX));
}

function plainDecimal(number: number, significant: number): string {
  const exponent = number === 0 ? 0 : Math.floor(Math.log10(Math.abs(number)));
  const text = number.toFixed(Math.min(20, Math.max(0, significant - 1 - exponent)));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** The decimal with at most four places that equals the value, or null. */
function finiteDecimal(value: Exact): string | null {
  const scaled = value.mul(10 ** DECIMALS_WHOLE_MAX);
  if (scaled.d !== 1n) return null;
  const digits = (scaled.n < 0n ? -scaled.n : scaled.n).toString().padStart(DECIMALS_WHOLE_MAX + 1, '0');
  const decimals = digits.slice(-DECIMALS_WHOLE_MAX).replace(/0+$/, '');
  const sign = value.compare(0) < 0 ? '-' : '';
  return `${sign}${digits.slice(0, -DECIMALS_WHOLE_MAX)}${decimals === '' ? '' : `.${decimals}`}`;
}

/** Blanks between thousands from five digits on, as the trade's tables have them. */
export function grouped(text: string): string {
  const [sign, digits = '', decimals] = /^(-?)(\d+)(\.\d+)?$/.exec(text)?.slice(1) ?? [];
  if (digits.length < 5) return text;
  return `${sign ?? ''}${digits.replace(/\B(?=(?:\d{3})+$)/g, ' ')}${decimals ?? ''}`;
}

/** The same for every number in a text, by blanks at which no line breaks; not decimals, and nothing with a letter before it. */
export function groupedWithin(text: string): string {
  return text.replace(/(?<![\p{L}\d.,])\d{5,}/gu, (digits) => grouped(digits).replaceAll(' ', '\u202f'));
}
