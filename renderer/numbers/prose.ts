/** Sentences of the core (remarks, reasons, stated options) as the page shows them: in the units and the language chosen. */
import { proseInSystem } from '../../core/results/shown-in-system.ts';
import { units } from '../store/view-settings.ts';
import { UNIT_SYMBOLS, translated, withDecimalComma } from '../words/told.ts';

/** A number and its unit, a standard and its number: "12.47 mm", "5 %", "ISO 7500-1". */
const TOGETHER = new RegExp(
  String.raw`(?<=\d) (?=(?:${UNIT_SYMBOLS})(?![\p{L}\d]))|(?<=\b(?:ISO|ASTM|EN|AWS|API)) (?=[A-Z]?\d)`,
  'gu',
);

/** "70 000 psi" is one number with its unit: a line doesn't end within it. */
export const unbroken = (text: string): string =>
  text.replace(/(?<=\d) (?=\d{3}(?!\d))/g, '\u202f').replace(TOGETHER, '\u00a0');

/** Not for what a person wrote: that stays as it was written. */
export function prose(text: string): string {
  return unbroken(withDecimalComma(proseInSystem(translated(text), units.value === 'US' ? 'us' : 'si')));
}
