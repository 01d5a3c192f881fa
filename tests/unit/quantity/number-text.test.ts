import { describe, expect, it } from 'vitest';
import { numberText } from '../../../core/quantity/number-text.ts';

describe('a number in a working', () => {
  it.each([
    [0, undefined, '0'],
    [0.06021875, undefined, '0.0602188'],
    [0.06021875, 7, '0.06021875'],
    [63351.04616, undefined, '63351'],
    [63351.04616, 7, '63351.05'],
    [-12.5, undefined, '-12.5'],
    [205000, 3, '205000'],
    [999999.9, undefined, '1000000'],
    [25.4, undefined, '25.4'],
    [1e-12, undefined, '1e-12'],
  ])('%d with %s digits is %s', (value, digits, text) => {
    expect(numberText(value, digits)).toBe(text);
  });
});
