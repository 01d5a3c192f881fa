import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OutwardRange, goodEnd } from '../../../renderer/plot/outward-range.ts';
import { tickPlaces, tickStep, ticks } from '../../../core/drawing/axis-ticks.ts';

const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe('an axis', () => {
  it('is fixed before the pull from what is planned (C8)', () => {
    const axis = new OutwardRange(45);
    expect(axis.max).toBe(50);
    expect(axis.include(49.9)).toBe(false);
    expect(axis.max).toBe(50);
  });

  it('grows outward only, and holds everything it was shown (C8)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        fc.array(value, { maxLength: 60 }),
        (planned, values) => {
          const axis = new OutwardRange(planned);
          for (const v of values) {
            const before = { min: axis.min, max: axis.max };
            axis.include(v);
            expect(axis.max).toBeGreaterThanOrEqual(before.max);
            expect(axis.min).toBeLessThanOrEqual(before.min);
            expect(v).toBeGreaterThanOrEqual(axis.min);
            expect(v).toBeLessThanOrEqual(axis.max);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('takes no notice of a value that is not there', () => {
    const axis = new OutwardRange(10);
    expect(axis.include(Number.NaN)).toBe(false);
    expect(axis.include(Infinity)).toBe(false);
  });

  it('does not grow again at the very next reading', () => {
    const axis = new OutwardRange(10);
    axis.include(10.1);
    expect(axis.include(10.5)).toBe(false);
  });

  it('has no good end for nothing', () => {
    expect(() => goodEnd(0)).toThrow(RangeError);
    expect(goodEnd(1)).toBe(1);
    expect(goodEnd(1.01)).toBeCloseTo(1.2, 12);
    expect(goodEnd(99_000)).toBe(100_000);
  });
});

describe('the lines of a scale', () => {
  it('stand on multiples of 1, 2 or 5, zero among them', () => {
    const step = tickStep(-2, 50, 6);
    expect(step).toBe(10);
    expect(ticks(-2, 50, step)).toEqual([0, 10, 20, 30, 40, 50]);
  });

  it('are written without the dust of binary fractions', () => {
    expect(ticks(0, 0.3, 0.1)).toEqual([0, 0.1, 0.2, 0.3]);
  });

  it('are never many more than there is room for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        fc.integer({ min: 2, max: 20 }),
        (max, wanted) => {
          expect(ticks(0, max, tickStep(0, max, wanted)).length).toBeLessThanOrEqual(wanted / 0.66 + 2);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('get as many places as tell them apart', () => {
    expect([1, 0.5, 0.02, 20].map(tickPlaces)).toEqual([0, 1, 2, 0]);
  });
});
