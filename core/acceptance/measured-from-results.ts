/** The values that rules compare, taken unrounded from an evaluation. */
import type { Result } from '../results/result.ts';
import { type Exact, exactFromDecimal, exactFromNumber, toNumber } from '../quantity/exact.ts';
import { type UnitSymbol, convertExact } from '../quantity/units.ts';
import type { JudgeCase } from './judge-case.ts';
import { exactText } from './number-text.ts';
import type { PrintedValue, UnitSystem } from './printed-value.ts';

/** Yield in the order of preference: the 0.2 % offset of the filler specifications first. */
export const YIELD_SYMBOLS = ['Rp0.2', 'Rt0.5', 'ReH', 'ReL'] as const;

/**
 * Figures that are kept of a value worked out in binary arithmetic. Force over area leaves noise in the sixteenth
 * figure, which must not decide whether 66 500 psi reaches 66 500 psi; no measurement has twelve figures.
 */
const SIGNIFICANT_FIGURES = 12;

/** Picks Rm, a yield strength and A from the results, in psi or MPa; what was withheld stays absent. */
export function measuredFromResults(results: readonly Result[], system: UnitSystem): JudgeCase['measured'] {
  const bySymbol = (symbol: string): Result | undefined => results.find((result) => result.symbol === symbol);
  const stressUnit = system === 'US' ? 'psi' : 'MPa';
  const strength = bySymbol('Rm');
  const yieldStrength = YIELD_SYMBOLS.map(bySymbol).find((result) => result !== undefined);
  const elongation = bySymbol('A');
  return {
    ...(strength === undefined ? {} : { 'tensile-strength': valueIn(strength, stressUnit) }),
    ...(yieldStrength === undefined ? {} : { 'yield-strength': valueIn(yieldStrength, stressUnit) }),
    ...(elongation === undefined ? {} : { elongation: valueIn(elongation, '%') }),
  };
}

function valueIn(result: Result, unit: UnitSymbol): PrintedValue {
  const exact = withoutNoise(convertExact(exactFromNumber(result.value), result.unit, unit));
  return { text: exactText(exact, unit), exact, unit };
}

function withoutNoise(value: Exact): Exact {
  return exactFromDecimal(toNumber(value).toPrecision(SIGNIFICANT_FIGURES)) ?? value;
}
