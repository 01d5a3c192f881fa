import fc from 'fast-check';
import * as simpleStatistics from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { quantile } from '../../../core/statistics/quantile.ts';
import { summarise } from '../../../core/statistics/summary.ts';

const strengths = fc.array(fc.double({ min: 100, max: 2000, noNaN: true }), { minLength: 2, maxLength: 60 });

describe('mean, standard deviation and variation of a set', () => {
  it('agree with a general-purpose library', () => {
    fc.assert(
      fc.property(strengths, (values) => {
        const summary = summarise(values);
        expect(summary.mean).toBeCloseTo(simpleStatistics.mean(values), 9);
        expect(summary.standardDeviation).toBeCloseTo(simpleStatistics.sampleStandardDeviation(values), 8);
        expect(summary.coefficientOfVariation).toBeCloseTo(
          simpleStatistics.coefficientOfVariation(values),
          10,
        );
        expect(summary.median).toBeCloseTo(simpleStatistics.median(values), 9);
        expect([summary.min, summary.max]).toEqual([Math.min(...values), Math.max(...values)]);
      }),
      { numRuns: 100 },
    );
  });

  it('of a single value has no spread, rather than a spread of zero', () => {
    expect(summarise([432])).toMatchObject({
      count: 1,
      mean: 432,
      standardDeviation: null,
      coefficientOfVariation: null,
    });
  });

  it('has no coefficient of variation about a mean of zero', () => {
    expect(summarise([-1, 1]).coefficientOfVariation).toBeNull();
  });

  it('refuses a missing value rather than leaving it out', () => {
    expect(() => summarise([1, Number.NaN])).toThrow(/value 2/);
    expect(() => summarise([])).toThrow(RangeError);
  });
});

describe('quantiles by a named method', () => {
  it('position 1 + p(n − 1): the median of four is the mean of the middle two', () => {
    expect(quantile([4, 1, 3, 2], 0.5, 'hyndman-fan-7')).toBe(2.5);
    expect(quantile([1, 2, 3, 4, 5], 0.25, 'hyndman-fan-7')).toBe(2);
  });

  it('position p(n + 1): the two methods differ off the middle', () => {
    expect(quantile([1, 2, 3, 4, 5], 0.25, 'hyndman-fan-6')).toBe(1.5);
    expect(quantile([1, 2, 3, 4, 5], 0.5, 'hyndman-fan-6')).toBe(3);
  });

  it('never leaves the range of the values and rises with the share', () => {
    fc.assert(
      fc.property(strengths, fc.double({ min: 0, max: 1, noNaN: true }), (values, share) => {
        for (const method of ['hyndman-fan-6', 'hyndman-fan-7'] as const) {
          const q = quantile(values, share, method);
          expect(q).toBeGreaterThanOrEqual(Math.min(...values));
          expect(q).toBeLessThanOrEqual(Math.max(...values));
          expect(quantile(values, Math.min(1, share + 0.1), method)).toBeGreaterThanOrEqual(q);
        }
      }),
      { numRuns: 100 },
    );
  });
});
