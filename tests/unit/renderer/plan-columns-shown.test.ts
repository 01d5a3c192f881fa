/** Of a file with many columns the preview shows the first, and all that are kept. */
import { expect, it } from 'vitest';
import { placesShown } from '../../../renderer/exchange/plan-entries.tsx';

it('shows two hundred columns, those that are kept among them, in their order', () => {
  const few = Array.from({ length: 200 }, () => null);
  expect(placesShown(few)).toHaveLength(200);
  const many = Array.from({ length: 300 }, (_, at) => (at === 120 || at === 250 || at === 299 ? {} : null));
  const shown = placesShown(many);
  expect(shown).toHaveLength(200);
  expect(shown).toEqual(shown.toSorted((a, b) => a - b));
  expect(shown.slice(-3)).toEqual([197, 250, 299]);
});
