/** Student's t against jStat (general-purpose library) and closed forms. */
import fc from 'fast-check';
import jStat from 'jstat';
import { describe, expect, it } from 'vitest';
import { coverageFactor, COVERED_SHARE } from '../../../core/results/coverage-factor.ts';
import { studentFactor, studentShareWithin } from '../../../core/statistics/student-distribution.ts';

describe('the share within ± t', () => {
  it('is that of jStat within its accuracy', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 30, noNaN: true }), fc.integer({ min: 1, max: 200 }), (t, dof) => {
        // Near zero jStat's own incomplete beta function is only good to a few 1e−8.
        const other = 2 * jStat.studentt.cdf(t, dof) - 1;
        expect(Math.abs(studentShareWithin(t, dof) - other)).toBeLessThan(2e-7);
      }),
      { numRuns: 300 },
    );
  });

  it('with one degree of freedom is (2/π)·atan t, with two t/√(2 + t²)', () => {
    for (const t of [0, 0.3, 1, 4.5, 14]) {
      expect(studentShareWithin(t, 1)).toBeCloseTo((2 / Math.PI) * Math.atan(t), 14);
      expect(studentShareWithin(t, 2)).toBeCloseTo(t / Math.sqrt(2 + t * t), 14);
    }
  });

  it('asks for whole degrees of freedom', () => {
    expect(() => studentShareWithin(1, 2.5)).toThrow(RangeError);
    expect(() => studentFactor(1, 3)).toThrow(RangeError);
  });
});

describe('the coverage factor', () => {
  it('is jStat’s t of 95.45 % to two places for every whole number of degrees up to 50', () => {
    for (let dof = 1; dof <= 50; dof++) {
      expect(Math.abs(coverageFactor(dof) - jStat.studentt.inv((1 + COVERED_SHARE) / 2, dof))).toBeLessThan(
        0.005 + 1e-6,
      );
    }
  });

  it('never grows with the degrees of freedom and meets 2 for infinitely many', () => {
    for (let dof = 2; dof <= 51; dof++)
      expect(coverageFactor(dof)).toBeLessThanOrEqual(coverageFactor(dof - 1));
    expect(coverageFactor(undefined)).toBe(2);
    expect(COVERED_SHARE).toBeCloseTo(0.9545, 4);
  });
});
