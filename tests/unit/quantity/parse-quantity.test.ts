import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  QUANTITY_TEXT_LENGTH_MAX,
  parseQuantity,
  quantityFaultSentence,
} from '../../../core/quantity/parse-quantity.ts';

const length = (text: string) => parseQuantity(text, { dimension: 'length', positive: true });

describe('a length as people type it', () => {
  it.each([
    ['12.7 mm', 12.7],
    ['12.7mm', 12.7],
    ['0.5 in', 12.7],
    ['.5in', 12.7],
    ['0.5"', 12.7],
    ['1/2 in', 12.7],
    ['1-1/2 in', 38.1],
    ['1 1/2 in', 38.1],
    ['1 1/2"', 38.1],
    ['12,7 mm', 12.7],
    ['5e-1 in', 12.7],
    ['500 mil', 12.7],
    ['  2 in  ', 50.8],
    ['1,000 in', 25400],
    ['1 000 mm', 1000],
  ])('%s is %d mm', (text, expected) => {
    const outcome = length(text);
    expect(outcome.ok && outcome.quantity.core).toBe(expected);
  });

  it.each([
    ['', 'empty'],
    ['12.7', 'unit-missing'],
    ['12.7 furlong', 'unit-unknown'],
    ['12.7 N', 'wrong-dimension'],
    ['0 mm', 'not-positive'],
    ['-3 mm', 'not-positive'],
    ['1/0 in', 'not-a-number'],
    ['1.2.3 mm', 'not-a-number'],
    ['mm', 'not-a-number'],
    ['12,700 mm', 'not-a-number'],
    ['NaN mm', 'not-a-number'],
    ['1e999 mm', 'out-of-range'],
    ['1e-999 mm', 'out-of-range'],
    ['12.7 '.repeat(20), 'too-long'],
  ])('%j is refused: %s', (text, code) => {
    const outcome = length(text);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) {
      expect(outcome.fault.code).toBe(code);
      expect(quantityFaultSentence(outcome.fault, text)).toMatch(/[.]$/);
    }
  });

  it.each([
    ['stress', /"485 MPa" or "70 ksi"/],
    ['force', /"12\.5 kN" or "2810 lbf"/],
    ['strain', /"22 %"/],
    ['length', /"12\.7 mm"/],
  ] as const)('shows how a %s is typed, where one is wanted', (dimension, example) => {
    for (const text of ['abc', '']) {
      const outcome = parseQuantity(text, { dimension });
      expect(outcome.ok ? '' : quantityFaultSentence(outcome.fault, text, dimension)).toMatch(example);
    }
  });

  it('takes the unit beside the field where none is typed, if there is one', () => {
    const outcome = parseQuantity('0.5', { dimension: 'length', unitIfMissing: 'in' });
    expect(outcome.ok && outcome.quantity.core).toBe(12.7);
  });

  it('keeps a decimal exactly as typed', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9_999_999 }),
        fc.integer({ min: 0, max: 5 }),
        (digits, decimals) => {
          const text = (digits / 10 ** decimals).toFixed(decimals);
          const outcome = length(`${text} in`);
          if (!outcome.ok) throw new Error(text);
          expect(outcome.quantity.exact.mul(10 ** decimals).equals(digits)).toBe(true);
        },
      ),
    );
  });

  it('never throws and never gives a number that is not finite', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: QUANTITY_TEXT_LENGTH_MAX + 5 }), (text) => {
        const outcome = length(text);
        if (outcome.ok)
          expect(Number.isFinite(outcome.quantity.core) && outcome.quantity.core > 0).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
