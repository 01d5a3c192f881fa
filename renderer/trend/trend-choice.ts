/** Which result is looked at and how, and its values as they are shown. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { convert } from '../../core/quantity/units.ts';
import type { TOLERANCE_DISTRIBUTIONS } from '../../core/statistics/tolerance-bound.ts';
import { TREND_GROUPINGS, isTrendQuantity } from '../../core/trend/trend-pull.ts';
import { displayUnit } from '../numbers/display-unit.ts';
import { fixed, placesOf } from '../numbers/format.ts';
import { remember, remembered } from '../store/remembered.ts';
import { language, units } from '../store/view-settings.ts';

export const VIEWS = [...TREND_GROUPINGS, 'individuals'] as const;
const QUANTITY_KEY = 'gaugemark.trend-quantity';
const VIEW_KEY = 'gaugemark.trend-view';
export const quantity = signal(remembered(QUANTITY_KEY, z.string().refine(isTrendQuantity), 'Rm'));
export const view = signal(remembered(VIEW_KEY, z.enum(VIEWS), 'individuals'));
remember(QUANTITY_KEY, () => quantity.value);
remember(VIEW_KEY, () => view.value);
/** Of the tolerance bound: by which law, how large a part of all, how surely. */
export const distribution = signal<(typeof TOLERANCE_DISTRIBUTIONS)[number]>('lognormal');
export const coverage = signal('0.95');
export const confidence = signal('0.95');

/** A value in MPa or % as it is shown, with its unit. */
export function trendText(value: number, places = 0): string {
  const unit = shownUnit();
  return `${fixed(shown(value), placesOf(unit) + places, language.value)} ${unit}`;
}
/** Two values with one unit. */
export function trendSpan(from: number, to: number): string {
  const unit = shownUnit();
  const text = (value: number): string => fixed(shown(value), placesOf(unit), language.value);
  return `${text(from)} – ${text(to)} ${unit}`;
}
export const shownUnit = () => (quantity.value === 'A' ? '%' : displayUnit('stress', units.value));
export const shown = (value: number): number =>
  quantity.value === 'A' ? value : convert(value, 'MPa', displayUnit('stress', units.value));
