import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactFromDecimal } from '../../../core/quantity/exact.ts';
import {
  decimalOfField,
  NumberScanner,
  SIGNIFICANT_DIGITS_MAX,
} from '../../../drivers/lines/number-grammar.ts';
import { asText } from './profile-of.ts';

const point = { decimalSign: '.' } as const;
const comma = { decimalSign: ',' } as const;

describe('a field is a number as a whole or not at all (N3)', () => {
  it.each([
    ['12.5', 125, -1],
    ['+0012.34', 1234, -2],
    ['-0.50', -50, -2],
    ['- 12.5', -125, -1],
    ['+   7', 7, 0],
    ['  42\t', 42, 0],
    ['12.', 12, 0],
    ['.5', 5, -1],
    ['12.5-', -125, -1],
    ['1.25e3', 125, 1],
    ['1.25E-03', 125, -5],
    ['-0.00', 0, -2],
    ['000000', 0, 0],
  ])('%j is %d × 10^%d', (field, mantissa, exponent) => {
    expect(decimalOfField(field, point)).toEqual({ mantissa, exponent });
  });

  it.each([
    '12.5abc',
    'abc',
    '1,5',
    '1.2.3',
    '',
    ' ',
    '-',
    '+',
    '.',
    '1 2',
    '--5',
    '0x1F',
    '1e',
    'Infinity',
    'NaN',
    '5-3',
    '-5-',
    '1e999',
    '12..5',
  ])('%j is none', (field) => {
    expect(decimalOfField(field, point)).toBeNull();
  });
});

describe('the decimal sign is declared, never guessed (N4)', () => {
  it('reads "1,234" as 1.234 where the comma is the decimal sign', () => {
    expect(decimalOfField('1,234', comma)).toEqual({ mantissa: 1234, exponent: -3 });
  });

  it('refuses "1.234" there, and "1,234" where the point is', () => {
    expect(decimalOfField('1.234', comma)).toBeNull();
    expect(decimalOfField('1,234', point)).toBeNull();
  });

  it('reads thousands only where their sign is declared, and only in groups of three', () => {
    const grouped = { decimalSign: '.', groupSign: ',' } as const;
    expect(decimalOfField('1,234.5', grouped)).toEqual({ mantissa: 12345, exponent: -1 });
    expect(decimalOfField('12,345,678', grouped)).toEqual({ mantissa: 12345678, exponent: 0 });
    for (const field of ['1,23', '1234,567', '1,2345', ',123', '1,234,56'])
      expect(decimalOfField(field, grouped)).toBeNull();
  });
});

describe('minus in parentheses', () => {
  const declared = { decimalSign: '.', minusInParentheses: true } as const;
  const exactOf = (text: string): string | null => {
    const scanner = new NumberScanner(declared);
    scanner.scan(text, 0, text.length);
    return scanner.exact;
  };

  it('is read where it is declared, beside the usual signs', () => {
    expect(decimalOfField('(12.30)', declared)).toEqual({ mantissa: -1230, exponent: -2 });
    expect(decimalOfField('( 12.30 )', declared)).toEqual({ mantissa: -1230, exponent: -2 });
    expect(decimalOfField('-12.30', declared)).toEqual({ mantissa: -1230, exponent: -2 });
    expect(Object.is(decimalOfField('(0.00)', declared)?.mantissa, 0)).toBe(true);
    expect(exactOf('(0.12345678901234567)')).toBe('-0.12345678901234567');
  });

  it('takes the whole field or nothing', () => {
    for (const field of [
      '(12.30',
      '12.30)',
      '(-12.30)',
      '(12.30-)',
      '((12.30))',
      '()',
      '-(12.30)',
      '(12.30)-',
    ])
      expect(decimalOfField(field, declared)).toBeNull();
    expect(decimalOfField('(12.30)', point)).toBeNull();
  });
});

describe('the value is the exact decimal', () => {
  it('agrees with exact rational arithmetic for every decimal text of up to 15 digits', () => {
    const digits = fc.stringMatching(/^[0-9]{1,8}$/);
    fc.assert(
      fc.property(
        fc.constantFrom('', '+', '-'),
        digits,
        fc.option(fc.stringMatching(/^[0-9]{1,7}$/)),
        (sign, whole, decimals) => {
          const text = `${sign}${whole}${decimals === null ? '' : `.${decimals}`}`;
          const read = decimalOfField(text, point);
          expect(read).not.toBeNull();
          const { mantissa, exponent } = read ?? { mantissa: 0, exponent: 0 };
          expect(Number.isSafeInteger(mantissa)).toBe(true);
          expect(
            exactFromDecimal(`${String(mantissa)}e${String(exponent)}`)?.equals(exactFromDecimal(text) ?? 1),
          ).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('keeps the first 15 digits of a longer number, rounded, and stays within safe integers', () => {
    const read = decimalOfField('0.30000000000000004', point);
    expect(read).toEqual({ mantissa: 300000000000000, exponent: -SIGNIFICANT_DIGITS_MAX });
    expect(decimalOfField('99999999999999999999', point)).toEqual({ mantissa: 10 ** 15, exponent: 5 });
  });

  it('keeps all digits of a longer number as plain text beside them', () => {
    const exactOf = (text: string): string | null => {
      const scanner = new NumberScanner({ decimalSign: ',', groupSign: '.' });
      expect(scanner.scan(text, 0, text.length)).toBe(text.length);
      return scanner.exact;
    };
    expect(exactOf('9'.repeat(23))).toBe('9'.repeat(23));
    expect(exactOf('0,30000000000000004')).toBe('0.30000000000000004');
    expect(exactOf('-001.234.567.890.123.456,50')).toBe('-1234567890123456.50');
    expect(exactOf('1234567890,123456789e3')).toBe('1234567890123.456789');
    expect(exactOf('123456789012345678e-20')).toBe('0.00123456789012345678');
    expect(exactOf('123456789012345')).toBeNull();
    expect(decimalOfField('9'.repeat(61), point)).toBeNull();
  });

  it('gives the same value by its exact text as by what it was written as', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^-?[0-9]{10,20}(\.[0-9]{1,15})?$/), (text) => {
        const scanner = new NumberScanner(point);
        expect(scanner.scan(text, 0, text.length)).toBe(text.length);
        if (scanner.exact !== null)
          expect(exactFromDecimal(scanner.exact)?.equals(exactFromDecimal(text) ?? 1)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it('takes any text without throwing, and gives a safe integer wherever it gives anything', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 20 }), (bytes) => {
        const text = asText(bytes);
        const read = decimalOfField(text, point);
        if (read !== null) expect(Number.isSafeInteger(read.mantissa)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });
});
