/** How a line of the self-check is written: figures as a laboratory files them, not by locale. */
import type { SelfCheckLineSent } from '../../core/contract/self-check-requests.ts';
import { numberText } from '../../core/quantity/number-text.ts';

/** Digits at which a figure and its published value can be told apart. */
const DIGITS = 7;

export function checkNumberText(value: number | string, unit: string, digits = DIGITS): string {
  if (typeof value === 'string') return value;
  const number = numberText(value, digits);
  return unit === 'text' || unit === '1' ? number : `${number} ${unit}`;
}

/** Told apart by shape as well as by word. */
export function verdictMark(verdict: SelfCheckLineSent['verdict']): string {
  return verdict === 'agrees' ? '✓' : verdict === 'differs' ? '▲' : '–';
}
