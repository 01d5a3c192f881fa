/** Sentences of the core (remarks, reasons, stated options) as the page shows them: in the units and the language chosen. */
import { proseInSystem } from '../../core/results/shown-in-system.ts';
import { units } from '../store/view-settings.ts';
import { translated, withDecimalComma } from '../words/told.ts';

/** "70 000 psi" is one number: a line doesn't end within it. */
export const unbroken = (text: string): string => text.replace(/(?<=\d) (?=\d{3}(?!\d))/g, '\u202f');

/** Not for what a person wrote: that stays as it was written. */
export function prose(text: string): string {
  return withDecimalComma(proseInSystem(translated(text), units.value === 'US' ? 'us' : 'si'));
}
