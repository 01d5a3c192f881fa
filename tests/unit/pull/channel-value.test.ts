/** From what a readout shows to N and mm: exact, rounded once. */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import {
  type ReadoutChannel,
  READOUT_PROFILE_SCHEMA,
  readoutProfile,
} from '../../../core/contract/readout-profile.ts';
import { ChannelConverter, zeroFromText, zeroText } from '../../../core/pull/channel-value.ts';
import { decimalText } from '../../../core/pull/decimal-text.ts';
import { toNumber } from '../../../core/quantity/exact.ts';
import { createParser } from '../../../drivers/create-parser.ts';
import { ratioToDouble } from '../../../core/pull/ratio-to-double.ts';

const channel = (over: Partial<ReadoutChannel>): ReadoutChannel => ({
  field: 'load',
  quantity: 'force',
  unit: { kind: 'fixed', unit: 'lbf' },
  scale: '1',
  offset: '0',
  sign: 'as-shown',
  written: 'decimal',
  peak: false,
  ...over,
});

describe('a value in the core unit', () => {
  it('follows the exact factor of the unit', () => {
    // 1 lbf = 4.448 221 615 260 5 N exactly: NIST SP 811, Appendix B.8.
    expect(new ChannelConverter(channel({})).convert(1, 0, 'lbf')).toBe(4.4482216152605);
    expect(
      new ChannelConverter(channel({ unit: { kind: 'fixed', unit: 'kN' } })).convert(33173, -3, 'kN'),
    ).toBe(33173);
  });

  it('takes scale, then offset, then sign, then the zero', () => {
    const its = channel({ unit: { kind: 'fixed', unit: 'N' }, scale: '2', offset: '-5', sign: 'inverted' });
    const zero = zeroFromText('-1/2');
    expect(new ChannelConverter(its, zero ?? undefined).convert(100, 0, 'N')).toBe(-194.5);
  });

  it('is no number where the readout showed none, or one that is not believed', () => {
    const its = new ChannelConverter(channel({}));
    const shown = { mantissa: null, exponent: 0, unit: 'lbf', status: 'overload' } as const;
    expect(its.value(shown)).toBeNaN();
    expect(its.value({ ...shown, mantissa: 99999, status: 'out-of-range' })).toBeNaN();
  });

  it('knows what the last digit shown is worth, by scale and unit, whatever offset, sign and zero', () => {
    const shown = { mantissa: 12_345, exponent: -1, unit: 'lbf', status: 'ok' } as const;
    // A tenth of 1 lbf = 4.448 221 615 260 5 N: NIST SP 811, Appendix B.8.
    expect(new ChannelConverter(channel({})).lastDigit(shown)).toBe(0.44482216152605);
    const its = channel({ scale: '2', offset: '-5', sign: 'inverted' });
    expect(new ChannelConverter(its, zeroFromText('-1/2') ?? undefined).lastDigit(shown)).toBe(
      0.8896443230521,
    );
    expect(
      new ChannelConverter(channel({})).lastDigit({ ...shown, mantissa: null, status: 'blank' }),
    ).toBeNull();
  });

  it('follows the unit that the line carries', () => {
    const its = new ChannelConverter(channel({ unit: { kind: 'in-line', expected: 'kN' } }));
    expect([its.convert(5, 0, 'kN'), its.convert(5, 0, 'N')]).toEqual([5000, 5]);
  });

  it('is compared in one unit where a key on the readout changes its own: the largest number is not the largest load (N1)', () => {
    const load = channel({ unit: { kind: 'in-line', expected: 'kN' } });
    const its = new ChannelConverter(load);
    const readout = createParser(
      readoutProfile.parse({
        schema: READOUT_PROFILE_SCHEMA,
        name: 'with a unit key',
        format: { kind: 'delimited', delimiter: ',', fields: ['load'] },
        channels: [load],
      }),
    );
    const loads = readout.push(0, Buffer.from('1.60 kN\n360 lbf\n1.70 kN\n'), 0).map(({ outcome }) => {
      const shown = outcome.kind === 'reading' ? outcome.reading.channels[0] : undefined;
      return shown === undefined ? Number.NaN : its.value(shown);
    });
    // 1 lbf is 4.4482216152605 N exactly (NIST SP 811, appendix B.8).
    expect(loads).toEqual([1600, 1601.35978149378, 1700]);
    expect(Math.max(...loads)).toBe(1700);
  });

  it('is the same for a whole column as for each number by itself, whatever its size', () => {
    const numbers = fc.array(fc.oneof(fc.maxSafeInteger(), fc.integer({ min: -99_999, max: 99_999 })));
    const unit = fc.constantFrom('N', 'kN', 'lbf' as const);
    const sign = fc.constantFrom('as-shown', 'inverted' as const);
    fc.assert(
      fc.property(numbers, unit, sign, fc.integer({ min: -9, max: 3 }), (mantissas, its, way, exponent) => {
        const converter = new ChannelConverter(
          channel({ unit: { kind: 'fixed', unit: its }, sign: way, offset: '-0.25' }),
        );
        const into = new Float64Array(mantissas.length + 1);
        converter.convertColumn(Float64Array.from([...mantissas, Number.NaN]), exponent, its, into);
        const each = mantissas.map((m) => toNumber(converter.exact(m, exponent, its)));
        expect([...into]).toEqual([...each, Number.NaN]);
      }),
      { numRuns: 200 },
    );
  });

  it('is zero without a sign', () => {
    const its = channel({ unit: { kind: 'fixed', unit: 'N' }, sign: 'inverted' });
    expect(new ChannelConverter(its).convert(0, -1, 'N')).toBe(0);
  });

  it('is the double nearest to the exact ratio', () => {
    // Against the shortest-text parse of the exact decimal expansion: an engine of its own.
    fc.assert(
      fc.property(fc.maxSafeInteger(), fc.integer({ min: -9, max: 3 }), (mantissa, exponent) => {
        const exact = new Fraction(44482216152605n, 10n ** 13n)
          .mul(BigInt(mantissa))
          .mul(exponent < 0 ? new Fraction(1n, 10n ** BigInt(-exponent)) : 10n ** BigInt(exponent));
        // The expansion ends after at most 22 places, so its decimal text is exact, and Number() rounds once.
        expect(new ChannelConverter(channel({})).convert(mantissa, exponent, 'lbf')).toBe(
          Number(exact.toString(40)),
        );
      }),
      { numRuns: 300 },
    );
  });
});

it('rounds ratios once, ties to even', () => {
  expect(ratioToDouble(2n ** 53n + 1n, 1n)).toBe(2 ** 53);
  expect(ratioToDouble(2n ** 53n + 3n, 1n)).toBe(2 ** 53 + 4);
  expect(ratioToDouble(-(2n ** 60n + 1n), 3n)).toBe(-Number(((2n ** 60n + 1n) * 2n ** 10n) / 3n) / 2 ** 10);
  expect(ratioToDouble(1n, 10n ** 30n)).toBe(1e-30);
});

it('writes decimals with the digits that were shown', () => {
  expect([
    decimalText(1250, -2),
    decimalText(-3, -4),
    decimalText(0, -3),
    decimalText(12, 3),
    decimalText(7, 0),
  ]).toEqual(['12.50', '-0.0003', '0.000', '12000', '7']);
});

it('keeps zeros as exact ratios', () => {
  const zero = new Fraction(-1113n, 500n);
  expect(zeroText(zero)).toBe('-1113/500');
  expect(zeroFromText('-1113/500')?.equals(zero)).toBe(true);
  expect([zeroFromText('1/0'), zeroFromText('x'), zeroFromText('')]).toEqual([null, null, null]);
});
