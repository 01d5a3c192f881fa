import fc from 'fast-check';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { standardNormalQuantile, standardNormalShare } from '../../../core/statistics/normal-distribution.ts';
import { summarise } from '../../../core/statistics/summary.ts';
import { lowerToleranceBound } from '../../../core/statistics/tolerance-bound.ts';
import { oneSidedToleranceFactor } from '../../../core/statistics/tolerance-factor.ts';

const bound = (values: number[], distribution: 'normal' | 'lognormal' = 'normal') => {
  const answer = lowerToleranceBound(values, { distribution, coverage: 0.9, confidence: 0.95 });
  if (answer.kind !== 'bound') throw new Error(answer.reason);
  return answer;
};

describe('the standard normal distribution', () => {
  it('agrees with a general-purpose library', () => {
    for (let z = -6; z <= 6; z += 0.25)
      expect(standardNormalShare(z)).toBeCloseTo(jstat.normal.cdf(z, 0, 1), 7);
  });

  it('share and quantile undo each other', () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), (z) => {
        expect(standardNormalQuantile(standardNormalShare(z))).toBeCloseTo(z, 3);
      }),
    );
  });
});

describe('the one-sided tolerance factor', () => {
  it('puts the noncentral t of a general-purpose library at the confidence asked for', () => {
    for (const count of [3, 5, 10, 20, 40])
      for (const [coverage, confidence] of [
        [0.9, 0.95],
        [0.95, 0.9],
        [0.99, 0.99],
      ] as const) {
        const k = oneSidedToleranceFactor({ count, coverage, confidence });
        const noncentrality = standardNormalQuantile(coverage) * Math.sqrt(count);
        expect(jstat.noncentralt.cdf(k * Math.sqrt(count), count - 1, noncentrality)).toBeCloseTo(
          confidence,
          6,
        );
      }
  });

  it('keeps its promise on simulated sets: 95 % of bounds hold for 90 % of the population', () => {
    // A small generator of our own, so that the draws are the same on every machine.
    let state = 20_240_607;
    const uniform = (): number => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return (state + 0.5) / 4_294_967_296;
    };
    const draw = (): number => 500 + 12 * standardNormalQuantile(uniform());
    const tenPercent = 500 + 12 * standardNormalQuantile(0.1);
    const sets = 4000;
    const k = oneSidedToleranceFactor({ count: 8, coverage: 0.9, confidence: 0.95 });
    let held = 0;
    for (let i = 0; i < sets; i++) {
      const { mean, standardDeviation } = summarise(Array.from({ length: 8 }, draw));
      if (mean - k * (standardDeviation ?? 0) <= tenPercent) held++;
    }
    // Four standard deviations of the count about 95 %.
    expect(Math.abs(held / sets - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / sets));
  });

  it('falls with the number of specimens towards the quantile itself', () => {
    const factors = [2, 3, 5, 10, 100, 10_000].map((count) =>
      oneSidedToleranceFactor({ count, coverage: 0.95, confidence: 0.95 }),
    );
    expect(factors).toEqual([...factors].sort((a, b) => b - a));
    expect(factors.at(-1)).toBeCloseTo(standardNormalQuantile(0.95), 1);
  });

  it('is refused for one specimen and for shares that are no shares', () => {
    expect(() => oneSidedToleranceFactor({ count: 1, coverage: 0.9, confidence: 0.95 })).toThrow(RangeError);
    expect(() => oneSidedToleranceFactor({ count: 5, coverage: 1, confidence: 0.95 })).toThrow(RangeError);
  });
});

describe('the lower tolerance bound of a set', () => {
  const set = [512, 498, 505, 520, 501, 509, 515, 503];

  it('is mean minus k standard deviations, with the method named', () => {
    const answer = bound(set);
    expect(answer.bound).toBeCloseTo(answer.mean - answer.factor * answer.standardDeviation, 10);
    expect(answer.method).toMatch(/normal, 90 % of the population with 95 % confidence, n = 8, k = 2\.582/);
  });

  it('lognormal: the bound of the logarithms, taken back', () => {
    const answer = bound(set, 'lognormal');
    const logs = bound(set.map(Math.log));
    expect(Math.log(answer.bound)).toBeCloseTo(logs.bound, 12);
  });

  it('scales with the unit', () => {
    expect(bound(set.map((v) => v * 145.0377)).bound).toBeCloseTo(bound(set).bound * 145.0377, 6);
  });

  it('is withheld for a single specimen and, lognormal, for values that are not above zero', () => {
    const question = { distribution: 'lognormal', coverage: 0.9, confidence: 0.95 } as const;
    expect(lowerToleranceBound([500], question)).toMatchObject({ kind: 'withheld', code: 'too-few' });
    expect(lowerToleranceBound([500, 0], question)).toMatchObject({ kind: 'withheld', code: 'not-positive' });
  });

  it('says what should be doubted about it', () => {
    expect(bound([499, 500, 501]).remarks.join()).toMatch(/^Only 3 specimens.*far below the smallest value/);
    // Equal to it, and so not below it.
    expect(bound([500, 500, 500]).remarks).toEqual([expect.stringMatching(/^All values are equal/)]);
    expect(bound([1, 100]).remarks.join()).toMatch(/below zero/);
  });
});
