/** Decimals as a readout showed them. */
import type { ShownValue } from '../contract/reading.ts';

/** The digits that were shown: (1250, −2) is "12.50". */
export function decimalText(mantissa: number, exponent: number): string {
  return plainDecimal(mantissa < 0, String(Math.abs(mantissa)), exponent);
}

/** Digits without sign and point, with the power of ten of the last one, as plain text without an exponent. */
export function plainDecimal(negative: boolean, digits: string, exponent: number): string {
  const sign = negative ? '-' : '';
  if (exponent >= 0) return `${sign}${digits}${'0'.repeat(digits === '0' ? 0 : exponent)}`;
  const padded = digits.padStart(1 - exponent, '0');
  return `${sign}${padded.slice(0, exponent)}.${padded.slice(exponent)}`;
}

/** The number of a reading without its unit; null where none was shown. */
export function shownNumber({
  mantissa,
  exponent,
  exact,
}: Omit<ShownValue, 'unit' | 'status'>): string | null {
  return mantissa === null ? null : (exact ?? decimalText(mantissa, exponent));
}

/** What to show of one channel: the number with its unit, or what stood in its place. */
export function shownText(shown: ShownValue): string {
  const number = shownNumber(shown);
  return number === null ? shown.status : `${number} ${shown.unit}`;
}
