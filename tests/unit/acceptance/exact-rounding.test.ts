import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundForJudging } from '../../../core/acceptance/exact-rounding.ts';
import { exactNumberText } from '../../../core/acceptance/number-text.ts';
import { type Exact, exactFromDecimal, toNumber } from '../../../core/quantity/exact.ts';

function exact(text: string): Exact {
  const value = exactFromDecimal(text);
  if (value === null) throw new Error(text);
  return value;
}

describe('rounding to a step', () => {
  // Half-even as printed in a laboratory's rounding policy (smtl.co.uk) and in IS 2:1960; half-up worked out.
  it.each([
    ['3.967', '0.01', '3.97', '3.97'],
    ['3.943', '0.01', '3.94', '3.94'],
    ['3.965', '0.01', '3.96', '3.97'],
    ['3.955', '0.01', '3.96', '3.96'],
    ['127.5', '1', '128', '128'],
    ['126.5', '1', '126', '127'],
    ['125.5', '1', '126', '126'],
    ['2.15', '0.1', '2.2', '2.2'],
    ['4.36', '1', '4', '4'],
    ['15.205', '0.1', '15.2', '15.2'],
    ['9.625', '1', '10', '10'],
    ['2.651', '0.1', '2.7', '2.7'],
    ['0.3552', '0.01', '0.36', '0.36'],
    ['12.545001', '0.01', '12.55', '12.55'],
    ['28.25', '0.5', '28', '28.5'],
    ['28.26', '0.5', '28.5', '28.5'],
    ['66250', '500', '66000', '66500'],
    ['502.5', '5', '500', '505'],
  ])('%s to %s is %s half-even and %s half-up', (value, step, even, up) => {
    expect(roundForJudging(exact(value), exact(step), 'half-even').compare(exact(even))).toBe(0);
    expect(roundForJudging(exact(value), exact(step), 'half-up').compare(exact(up))).toBe(0);
  });

  it('down stays below (IS 2:1960 amendment 1: 2.39 against 2.4 is 2.3)', () => {
    expect(roundForJudging(exact('2.39'), exact('0.1'), 'down').compare(exact('2.3'))).toBe(0);
  });

  it('never moves a value by more than half a step, and leaves multiples alone', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1e9 }),
        fc.integer({ min: 1, max: 10_000 }),
        (thousandths, step) => {
          const value = exact(`${String(thousandths)}e-3`);
          const rounded = roundForJudging(value, exact(String(step)), 'half-even');
          expect(rounded.sub(value).abs().mul(2).compare(step)).toBeLessThanOrEqual(0);
          expect(roundForJudging(rounded, exact(String(step)), 'half-even').compare(rounded)).toBe(0);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('numbers in sentences', () => {
  it.each([
    ['66500', '66 500'],
    ['3500', '3500'],
    ['460.75', '460.75'],
    ['-3500.5', '-3500.5'],
    ['1234567', '1 234 567'],
    ['0', '0'],
    ['69.90835', '69.9083'],
    ['0.000123456', '0.000123456'],
  ])('%s is written %s', (value, text) => {
    expect(exactNumberText(exact(value))).toBe(text);
  });

  it('a value just short of its limit is never written like the limit', () => {
    const limit = exact('66500');
    const value = exact('66499.99999999');
    expect(exactNumberText(value, [limit])).toBe('66 499.99999999');
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), (millionths) => {
        const near = limit.sub(exact(`${String(millionths)}e-6`));
        expect(exactNumberText(near, [limit])).not.toBe(exactNumberText(limit));
        expect(
          Math.abs(Number(exactNumberText(near, [limit]).replaceAll(' ', '')) - toNumber(near)),
        ).toBeLessThan(0.06);
      }),
      { numRuns: 200 },
    );
  });
});
