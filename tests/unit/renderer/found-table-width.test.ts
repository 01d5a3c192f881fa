/** The archive's table is wider in US units only where what stands there is longer in them. */
import { afterEach, expect, it } from 'vitest';
import { FOUND_COLUMNS } from '../../../renderer/archive/found-pulls.ts';
import { leastRem } from '../../../renderer/archive/found-table.tsx';
import { viewSettings } from '../../../renderer/store/view-settings.ts';

const before = viewSettings.value;
afterEach(() => {
  viewSettings.value = before;
});

it('gives loads and stresses more room in pounds and psi, and percentages and counts none', () => {
  viewSettings.value = { ...before, units: 'SI' };
  const inSi = new Map(FOUND_COLUMNS.map((column) => [column, leastRem(column)]));
  viewSettings.value = { ...before, units: 'US' };
  const wider = FOUND_COLUMNS.filter((column) => leastRem(column) > (inSi.get(column) ?? 0));
  expect(wider.toSorted()).toEqual(['peak', 'strength', 'unrounded', 'yield']);
});
