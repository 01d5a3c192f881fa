import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactFromDecimal, exactFromNumber, exactRatio, toNumber } from '../../../core/quantity/exact.ts';

describe('exact values', () => {
  it('stand for the decimal that people see, and come back as the same double', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(toNumber(exactFromNumber(value)) === value).toBe(true);
      }),
    );
  });

  it('become the double that a correctly rounded division gives', () => {
    // Quotients of two integers below 2^53 are correctly rounded by the machine itself (IEEE 754).
    const whole = fc.integer({ min: 1, max: Number.MAX_SAFE_INTEGER });
    fc.assert(
      fc.property(whole, whole, (a, b) => {
        expect(toNumber(exactRatio(BigInt(a), BigInt(b)))).toBe(a / b);
      }),
    );
  });

  it('make 95 % of 70 000 psi exactly 66 500 psi', () => {
    expect(exactFromNumber(0.95).mul(70_000).equals(66_500)).toBe(true);
  });

  it('are not made from what is no plain decimal', () => {
    for (const text of ['', '1,5', '0x10', '1/2', 'NaN', 'Infinity', '1e', '9'.repeat(41)])
      expect(exactFromDecimal(text)).toBeNull();
    expect(() => exactFromNumber(Number.NaN)).toThrow(RangeError);
    expect(() => exactRatio(1n, 0n)).toThrow(RangeError);
  });
});
