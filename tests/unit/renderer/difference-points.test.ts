import { expect, it } from 'vitest';
import { differencePoints } from '../../../renderer/overlay/overlay-values.tsx';

it('tells of a difference where it begins, ends and is furthest to either side, in the order of x', () => {
  expect(differencePoints([Number.NaN, 1, 4, -2, 0, Number.NaN])).toEqual([
    { name: 'from', at: 1 },
    { name: 'most', at: 2 },
    { name: 'least', at: 3 },
    { name: 'to', at: 4 },
  ]);
  expect(differencePoints([Number.NaN])).toEqual([]);
  expect(differencePoints([])).toEqual([]);
});
