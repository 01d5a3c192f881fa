import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactFromNumber, exactRatio } from '../../../core/quantity/exact.ts';
import { roundExact, roundSignificant, stepFromText } from '../../../core/quantity/round-exact.ts';

describe('rounding on exact values', () => {
  it('sends a tie to the even multiple, on both sides of zero', () => {
    const texts = ['0.5', '1.5', '2.5', '-0.5', '-1.5'].map(
      (text) => roundExact(stepOrMinus(text), stepFromText('1'), 'half-even').text,
    );
    expect(texts).toEqual(['0', '2', '2', '0', '-2']);
  });

  it('writes the digits that the step leaves', () => {
    expect(roundExact(exactFromNumber(28.24), stepFromText('0.5'), 'half-even').text).toBe('28.0');
    expect(roundExact(exactFromNumber(66_260), stepFromText('500'), 'half-even').text).toBe('66500');
  });

  it('is never further from the value than half a step, and is a multiple of the step', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter((v) => v === 0 || Math.abs(v) > 1e-9),
        fc.constantFrom('0.01', '0.1', '0.2', '0.5', '1', '5', '10', '100', '500', '1000'),
        fc.constantFrom('half-even' as const, 'half-up' as const),
        (value, stepText, ties) => {
          const step = stepFromText(stepText);
          const exact = exactFromNumber(value);
          const rounded = roundExact(exact, step, ties);
          expect(rounded.value.sub(exact).abs().mul(2).compare(step)).toBeLessThanOrEqual(0);
          expect(rounded.value.div(step).mod(1).equals(0)).toBe(true);
          expect(Number(rounded.text)).toBeCloseTo(rounded.value.valueOf(), 9);
        },
      ),
    );
  });

  it('rounds to significant digits across a power of ten', () => {
    expect(roundSignificant(exactFromNumber(0.06021875), 4, 'half-even').text).toBe('0.06022');
    expect(roundSignificant(exactFromNumber(99.996), 4, 'half-even').value.equals(100)).toBe(true);
    expect(roundSignificant(exactRatio(0n, 1n), 4, 'half-even').text).toBe('0');
  });

  it('finds the step of any magnitude, as the decimal text of the number does', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 9.999, noNaN: true }),
        fc.integer({ min: -15, max: 15 }),
        fc.integer({ min: 2, max: 12 }),
        (mantissa, power, digits) => {
          const value = Number(`${String(mantissa)}e${String(power)}`);
          const rounded = roundSignificant(exactFromNumber(value), digits, 'half-even');
          const step = Number(value.toExponential(0).replace(/^[^e]*/, '1')) / 10 ** (digits - 1);
          // toExponential may round 9.99… up to the next power of ten; both steps are the value's then.
          expect([step, step / 10].map((s) => s.toPrecision(6))).toContain(
            rounded.step.valueOf().toPrecision(6),
          );
          expect(Math.abs(rounded.value.valueOf() / value - 1)).toBeLessThanOrEqual(
            0.51 * 10 ** (1 - digits),
          );
        },
      ),
      { numRuns: 40 },
    );
  });

  it('refuses a step of zero', () => {
    expect(() => roundExact(exactFromNumber(1), exactRatio(0n, 1n), 'half-even')).toThrow(RangeError);
  });
});

const stepOrMinus = (text: string) =>
  text.startsWith('-') ? stepFromText(text.slice(1)).neg() : stepFromText(text);
