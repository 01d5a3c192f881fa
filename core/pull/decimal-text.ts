/** Decimals as a readout showed them. */
import type { ShownValue } from '../contract/reading.ts';

/** The digits that were shown: (1250, −2) is "12.50". */
export function decimalText(mantissa: number, exponent: number): string {
  if (exponent >= 0) return `${mantissa}${'0'.repeat(mantissa === 0 ? 0 : exponent)}`;
  const digits = String(Math.abs(mantissa)).padStart(1 - exponent, '0');
  return `${mantissa < 0 ? '-' : ''}${digits.slice(0, exponent)}.${digits.slice(exponent)}`;
}

/** What to show of one channel: the number with its unit, or what stood in its place. */
export function shownText({ mantissa, exponent, unit, status }: ShownValue): string {
  return mantissa === null ? status : `${decimalText(mantissa, exponent)} ${unit}`;
}
