/** Ranges of the plot of many curves: zoomed about a place, moved, and never lost. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isAsWide, moved, within, zoomed } from '../../../renderer/plot/zoom.ts';

const WHOLE = { x: { min: 0, max: 10 }, y: { min: 0, max: 500 } };

describe('zooming', () => {
  it('leaves the place under the pointer where it is, and the other direction when it is left out', () => {
    const near = zoomed(WHOLE, WHOLE, 2, { x: 0.25, y: null });
    // A quarter of the way from the left lay 2.5, and there it lies again.
    expect(near).toEqual({ x: { min: 1.25, max: 6.25 }, y: WHOLE.y });
    expect(near.x.min + 0.25 * (near.x.max - near.x.min)).toBe(2.5);
  });

  it('ends where a picture would show nothing any more, in both directions', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.01, max: 100, noNaN: true }), { maxLength: 60 }), (steps) => {
        const range = steps.reduce((now, by) => zoomed(now, WHOLE, by, { x: 0.5, y: 0.5 }), WHOLE);
        const span = range.x.max - range.x.min;
        expect(span).toBeGreaterThan(10 * 0.99e-6);
        expect(span).toBeLessThanOrEqual(10.0001);
      }),
    );
  });

  it('shows everything again once both directions are as wide as the whole', () => {
    const near = zoomed(WHOLE, WHOLE, 4, { x: 0.5, y: 0.5 });
    expect(isAsWide(near, WHOLE)).toBe(false);
    expect(isAsWide(zoomed(near, WHOLE, 1 / 4, { x: 0.5, y: null }), WHOLE)).toBe(false);
    expect(isAsWide(zoomed(near, WHOLE, 1 / 8, { x: 0.1, y: 0.9 }), WHOLE)).toBe(true);
  });
});

describe('moving', () => {
  it('goes by parts of what is shown, and keeps a part of the whole in the picture', () => {
    const near = { x: { min: 4, max: 6 }, y: { min: 100, max: 200 } };
    expect(moved(near, WHOLE, 0.5, 0).x).toEqual({ min: 5, max: 7 });
    const far = Array.from({ length: 50 }).reduce<typeof near>((now) => moved(now, WHOLE, 1, 1), near);
    expect(far.x.min).toBeLessThan(WHOLE.x.max);
    expect(far.y.min).toBeLessThan(WHOLE.y.max);
  });

  it('follows the cursor no further than needed', () => {
    const near = { x: { min: 4, max: 6 }, y: { min: 100, max: 200 } };
    expect(within(near, 5, 150)).toEqual(near);
    expect(within(near, 7, 150)).toEqual({ x: { min: 5.2, max: 7.2 }, y: near.y });
  });
});
