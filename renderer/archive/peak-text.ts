/** The largest force of a pull as a list shows it: in the unit that fits, by the places that people read. */
import { convert } from '../../core/quantity/units.ts';
import { language, units } from '../store/view-settings.ts';
import { loadUnit } from '../numbers/display-unit.ts';
import { fixed, placesOf } from '../numbers/format.ts';

export function peakText(forceN: number): string {
  const unit = loadUnit(forceN, units.value);
  return `${fixed(convert(forceN, 'N', unit), placesOf(unit), language.value)} ${unit}`;
}
