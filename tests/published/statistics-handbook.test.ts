/** Statistics against published tables and the worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods. */
import { describe, expect, it } from 'vitest';
import { D2_OF_TWO, individualsChart } from '../../core/statistics/individuals-chart.ts';
import { summarise } from '../../core/statistics/summary.ts';
import { oneSidedToleranceFactor } from '../../core/statistics/tolerance-factor.ts';

describe('one-sided tolerance factors', () => {
  // Factors of the usual table for one-sided limits of a normal population, 95 % confidence (a reprint was read in a
  // public repository; the handbook of 1963 that it goes back to was not at hand). The table was computed by hand:
  // its last digit is off by up to 3 for n = 3.
  const COUNTS = [3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40];
  it.each([
    [0.9, [6.158, 4.163, 3.407, 3.006, 2.755, 2.582, 2.454, 2.355, 2.21, 2.068, 1.926, 1.838, 1.778, 1.697]],
    [0.95, [7.655, 5.145, 4.202, 3.707, 3.399, 3.188, 3.031, 2.911, 2.736, 2.566, 2.396, 2.292, 2.22, 2.126]],
  ] as const)('of %d of the population with 95 %% confidence', (coverage, factors) => {
    for (const [i, tabled] of factors.entries()) {
      const count = COUNTS[i] ?? 0;
      const k = oneSidedToleranceFactor({ count, coverage, confidence: 0.95 });
      expect(Math.abs(k - tabled), `n = ${String(count)}`).toBeLessThanOrEqual(count === 3 ? 0.003 : 0.0016);
    }
  });

  it.each([
    [5, 0.99, 0.95, 5.741],
    [10, 0.99, 0.95, 3.981],
    [30, 0.99, 0.95, 3.064],
    [5, 0.95, 0.9, 3.4],
    [10, 0.95, 0.9, 2.568],
    [10, 0.9, 0.9, 2.066],
    [10, 0.95, 0.99, 3.738],
  ] as const)(
    'n = %d, %d of the population, confidence %d: %d (from memory of the usual tables)',
    (count, coverage, confidence, tabled) => {
      expect(Math.abs(oneSidedToleranceFactor({ count, coverage, confidence }) - tabled)).toBeLessThanOrEqual(
        0.002,
      );
    },
  );

  it('of 43 wafers, 90 % with 99 % confidence (e-Handbook 7.2.6.3): exact 1.8740 beside its approximation 1.8752', () => {
    // 1.8752 is the page's approximate value (seen quoted); 1.8740 by noncentral t is from memory.
    const factor = oneSidedToleranceFactor({ count: 43, coverage: 0.9, confidence: 0.99 });
    expect(factor).toBeCloseTo(1.874, 3);
    expect(Math.abs(factor - 1.8752)).toBeLessThan(0.002);
  });

  it('of n = 2, 90 % with 95 % confidence: 20.581 (from memory)', () => {
    expect(oneSidedToleranceFactor({ count: 2, coverage: 0.9, confidence: 0.95 })).toBeCloseTo(20.581, 2);
  });
});

describe('chart of individual values (e-Handbook 6.3.2.2, flow rate of ten batches)', () => {
  // Results seen quoted (mean 50.81, mean moving range 1.8778, lines 55.8041 and 45.8159); the ten values are from
  // memory and give these results.
  const flowRate = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

  it('gives the mean, the mean moving range and both lines', () => {
    const outcome = individualsChart(flowRate);
    if (outcome.kind !== 'chart') throw new Error(outcome.reason);
    const { mean, meanMovingRange, upperLine, lowerLine, outside } = outcome.chart;
    expect(mean).toBeCloseTo(50.81, 4);
    expect(meanMovingRange).toBeCloseTo(1.8778, 4);
    expect(upperLine).toBeCloseTo(55.8041, 4);
    expect(lowerLine).toBeCloseTo(45.8159, 4);
    expect(outside).toEqual([]);
  });

  it('uses 2.66 mean moving ranges, 3 / 1.128, and 1.128 is 2/√π to its digits', () => {
    expect(3 / D2_OF_TWO).toBeCloseTo(2.66, 3);
    expect(D2_OF_TWO).toBeCloseTo(2 / Math.sqrt(Math.PI), 3);
  });
});

describe('mean and standard deviation (NIST Statistical Reference Datasets, univariate)', () => {
  // NumAcc4: one 10000000.2, then 500 pairs of 10000000.1 and 10000000.3. Certified: mean 10000000.2, s = 0.1.
  const about = (middle: number): number[] => [
    middle,
    ...Array.from({ length: 1000 }, (_, i) => Number((middle + (i % 2 === 0 ? -0.1 : 0.1)).toFixed(1))),
  ];

  it.each([
    ['NumAcc2', 1.2, 12],
    ['NumAcc3', 1_000_000.2, 9],
    ['NumAcc4', 10_000_000.2, 8],
  ] as const)('%s', (_, middle, places) => {
    const summary = summarise(about(middle));
    expect(summary.mean).toBeCloseTo(middle, 8);
    expect(summary.standardDeviation).toBeCloseTo(0.1, places);
  });

  it('NumAcc1', () => {
    expect(summarise([10_000_001, 10_000_003, 10_000_002])).toMatchObject({
      mean: 10_000_002,
      standardDeviation: 1,
    });
  });
});
