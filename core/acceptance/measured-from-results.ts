/** The values that rules compare, taken unrounded from an evaluation. */
import type { Result } from '../results/result.ts';
import { exactFromNumber } from '../quantity/exact.ts';
import { CORE_UNIT, UNITS, convertExact } from '../quantity/units.ts';
import type { JudgeCase } from './judge-case.ts';
import { exactText } from './number-text.ts';
import type { PrintedValue } from './printed-value.ts';

/** Yield in the order of preference: the 0.2 % offset of the filler specifications first. */
const YIELD_SYMBOLS = ['Rp0.2', 'Rt0.5', 'ReH', 'ReL'] as const;

/** Picks Rm, a yield strength and A from the results; what was withheld stays absent. */
export function measuredFromResults(results: readonly Result[]): JudgeCase['measured'] {
  const bySymbol = (symbol: string): Result | undefined => results.find((result) => result.symbol === symbol);
  const strength = bySymbol('Rm');
  const yieldStrength = YIELD_SYMBOLS.map(bySymbol).find((result) => result !== undefined);
  const elongation = bySymbol('A');
  return {
    ...(strength === undefined ? {} : { 'tensile-strength': exactValue(strength) }),
    ...(yieldStrength === undefined ? {} : { 'yield-strength': exactValue(yieldStrength) }),
    ...(elongation === undefined ? {} : { elongation: inPercent(elongation) }),
  };
}

function exactValue(result: Result): PrintedValue {
  const exact = exactFromNumber(result.value);
  return { text: exactText(exact, result.unit), exact, unit: result.unit };
}

function inPercent(result: Result): PrintedValue {
  const exact = convertExact(
    exactFromNumber(result.value),
    result.unit,
    CORE_UNIT[UNITS[result.unit].dimension],
  ).mul(100);
  return { text: exactText(exact, '%'), exact, unit: '%' };
}
