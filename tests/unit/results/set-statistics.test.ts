import fc from 'fast-check';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import type { Result } from '../../../core/results/result.ts';
import { setStatistics } from '../../../core/results/set-statistics.ts';

const rm = (value: number, unit: 'MPa' | 'psi' = 'MPa'): Result => ({
  symbol: 'Rm',
  name: 'tensile strength',
  value,
  unit,
  rounded: [],
  method: '',
  working: { formula: '', inputs: [], substituted: '', source: '' },
});
const member = (id: string, ...results: Result[]) => ({ id, evaluation: { results, withheld: [] } });

describe('a set of pulls', () => {
  it('gives mean, deviation, extremes with the specimen they belong to, and who is missing', () => {
    const [statistic] = setStatistics([
      member('a', rm(500)),
      member('b', rm(520)),
      member('c'),
      member('d', rm(510)),
    ]);
    expect(statistic).toMatchObject({
      symbol: 'Rm',
      count: 3,
      mean: 510,
      standardDeviation: 10,
      min: 500,
      minOf: 'a',
      max: 520,
      maxOf: 'b',
      missing: ['c'],
    });
    expect(statistic?.coefficientOfVariation).toBeCloseTo(10 / 510, 12);
  });

  it('gives no deviation for one value', () => {
    expect(setStatistics([member('a', rm(500))])[0]).toMatchObject({
      standardDeviation: null,
      coefficientOfVariation: null,
    });
  });

  it('brings values to one unit before it averages them', () => {
    const [statistic] = setStatistics([member('a', rm(6.894757293168)), member('b', rm(1000, 'psi'))]);
    expect(statistic?.mean).toBeCloseTo(6.894757293168, 9);
  });

  it('agrees with a statistics library', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1, max: 2000, noNaN: true }), { minLength: 2, maxLength: 50 }),
        (values) => {
          const [ours] = setStatistics(values.map((value, k) => member(String(k), rm(value))));
          expect(ours?.mean).toBeCloseTo(mean(values), 9);
          expect(ours?.standardDeviation).toBeCloseTo(sampleStandardDeviation(values), 8);
        },
      ),
    );
  });
});
