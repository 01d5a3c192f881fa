import { expect, it } from 'vitest';
import { namesApart } from '../../../core/drawing/difference-plot.ts';
import type { AlignedCurve } from '../../../core/drawing/overlay-plot.ts';
import { differencePlaces } from '../../../renderer/overlay/difference-places.ts';
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

it('is walked along in steps that a screen tells apart, inside the range, and never past its extremes', () => {
  const x = Float64Array.from({ length: 4_000 }, (_, i) => i / 100);
  const y = x.map((_, i) => (i === 1_237 ? 9 : i === 2_641 ? -9 : i < 3 ? Number.NaN : 0));
  const all = differencePlaces(x, y, { min: 0, max: 40 });
  expect(all.length).toBeLessThan(510);
  expect(all[0]).toBe(3);
  expect(all).toEqual(expect.arrayContaining([1_237, 2_641, 3_999]));
  expect(all).toEqual(all.toSorted((a, b) => a - b));
  // Of a part of it every point, where there are few.
  expect(differencePlaces(x, y, { min: 10, max: 10.1 })).toEqual(
    Array.from({ length: 11 }, (_, i) => 1_000 + i),
  );
});

it('names both of its pulls, and tells two of one specimen apart by what is said of the pull', () => {
  const curve = (name: string, pullId: number): AlignedCurve => ({ name, pullId }) as AlignedCurve;
  const byNumber = ({ pullId }: AlignedCurve): string => `pull ${String(pullId)}`;
  expect(namesApart(curve('W1-1', 3), curve('W1-2', 8), byNumber)).toEqual(['W1-1', 'W1-2']);
  expect(namesApart(curve('W1-1', 3), curve('W1-1', 8), byNumber)).toEqual(['W1-1, pull 3', 'W1-1, pull 8']);
});
