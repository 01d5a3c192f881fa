/** Sentences of the core (remarks, reasons, stated options) as the page shows them: in the units and the language chosen. */
import { proseInSystem } from '../../core/results/shown-in-system.ts';
import { units } from '../store/view-settings.ts';
import { told } from '../words/told.ts';

/** Not for what a person wrote: that stays as it was written. */
export function prose(text: string): string {
  return proseInSystem(told(text), units.value === 'US' ? 'us' : 'si');
}
