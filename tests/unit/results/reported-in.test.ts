import { describe, expect, it } from 'vitest';
import { reportedIn, reportedValue } from '../../../core/results/reported-in.ts';
import type { Result } from '../../../core/results/result.ts';
import { type RoundingRuleName, type UnitSystem, withRounding } from '../../../core/results/rounding.ts';

const result = (symbol: string, value: number, unit: Result['unit']): Result => ({
  symbol,
  name: symbol,
  value,
  unit,
  rounded: [],
  method: 'made up',
  working: { formula: symbol, inputs: [], substituted: symbol, source: 'made up' },
});

const rounded = (of: Result, rule: RoundingRuleName, measuredIn: UnitSystem, shown: UnitSystem) => {
  const value = reportedValue(reportedIn(withRounding(of, rule, measuredIn), shown));
  return value === null ? null : `${value.text} ${value.unit}`;
};

// 435.4 MPa = 63 149.5 psi by 1 psi = 6.894 757 kPa (NIST SP 811).
const STRENGTH = result('Rm', 435.4, 'MPa');

describe('the value reported in the units shown', () => {
  it('is rounded in the system in which it was measured, by the rule chosen', () => {
    expect(rounded(STRENGTH, 'iso-6892-1', 'SI', 'SI')).toBe('435 MPa');
    expect(rounded(STRENGTH, 'e8-3', 'SI', 'SI')).toBe('435 MPa');
    expect(rounded(STRENGTH, 'e8-1', 'US', 'US')).toBe('63000 psi');
  });

  // ASTM E8/E8M (1), from memory: to 100 psi below 50 000, to 500 psi below 100 000, to 1 000 psi above.
  it('of a specimen in millimetres is read in psi by the steps of ASTM E8/E8M, from the unrounded value', () => {
    expect(rounded(STRENGTH, 'iso-6892-1', 'SI', 'US')).toBe('63000 psi');
    expect(rounded(result('ReH', 317.9, 'MPa'), 'iso-6892-1', 'SI', 'US')).toBe('46100 psi');
    expect(rounded(result('Rm', 886.9, 'MPa'), 'iso-6892-1', 'SI', 'US')).toBe('129000 psi');
  });

  it('ties go to the even step, by ASTM E29', () => {
    // 69 250 psi lies in the middle between 69 000 and 69 500.
    const tie = result('Rm', 69_250 * 0.006894757293168361, 'MPa');
    expect(rounded(tie, 'e8-1', 'US', 'US')).toBe('69000 psi');
  });

  it('keeps a rule that was chosen when the units change, where it has steps for them', () => {
    expect(rounded(STRENGTH, 'e8-3', 'SI', 'US')).toBe('63000 psi');
    expect(rounded(STRENGTH, 'e8-2', 'SI', 'US')).toBe('63100 psi');
    expect(rounded(STRENGTH, 'aws-a5.1', 'SI', 'US')).toBe('63 ksi');
    expect(rounded(STRENGTH, 'aws-a5.1', 'US', 'SI')).toBe('440 MPa');
  });

  it('is none where none was to be used, and for what no rule covers', () => {
    expect(rounded(STRENGTH, 'none', 'SI', 'US')).toBeNull();
    expect(rounded(result('Fm', 33_170, 'N'), 'iso-6892-1', 'SI', 'US')).toBeNull();
  });

  it('of a percentage is the same in either system', () => {
    for (const shown of ['SI', 'US'] as const)
      expect(rounded(result('A', 23.3, '%'), 'iso-6892-1', 'SI', shown)).toBe('23.5 %');
  });
});
