/** Results made from others: true stress and strain at the maximum force, yield ratios. */
import { numberText } from '../quantity/number-text.ts';
import { type Finding, given, withhold } from './finding.ts';
import { FROM_TRAVEL } from './record-columns.ts';
import type { Result } from './result.ts';

/** The first given result of a symbol. */
function resultOf(findings: readonly Finding[], symbol: string): Result | null {
  for (const finding of findings)
    if (finding.given && finding.result.symbol === symbol) return finding.result;
  return null;
}

const TRUE_STRESS = 'true stress at maximum force';
const TRUE_STRAIN = 'true (logarithmic) strain at maximum force';
const TRUE_SOURCE = 'textbook relations for uniform strain and constant volume';

export function trueAtMaximum(findings: readonly Finding[]): Finding[] {
  const rm = resultOf(findings, 'Rm');
  const agt = resultOf(findings, 'Agt');
  if (rm === null || agt === null) {
    const missing = rm === null ? 'Rm' : 'Agt';
    const reason = `It needs ${missing}, which is withheld.`;
    return [
      withhold('σm', TRUE_STRESS, 'input-withheld', reason),
      withhold('εm', TRUE_STRAIN, 'input-withheld', reason),
    ];
  }
  const ratio = agt.value / 100;
  const stress = rm.value * (1 + ratio);
  const strain = Math.log1p(ratio);
  const fromTravel = agt.remarks?.filter((remark) => remark.includes(FROM_TRAVEL)) ?? [];
  const remarks = fromTravel.length === 0 ? {} : { remarks: fromTravel };
  const inputs = [
    { symbol: 'Agt', name: agt.name, value: agt.value, unit: '%', from: 'result' },
    { symbol: 'Rm', name: rm.name, value: rm.value, unit: 'MPa', from: 'result' },
  ] as const;
  return [
    given({
      symbol: 'σm',
      name: TRUE_STRESS,
      value: stress,
      unit: 'MPa',
      rounded: [],
      method: 'from the engineering values, valid up to the maximum force',
      working: {
        formula: 'σm = Rm·(1 + Agt)',
        inputs,
        substituted: `σm = ${numberText(rm.value)} MPa × (1 + ${numberText(ratio)}) = ${numberText(stress)} MPa`,
        source: TRUE_SOURCE,
      },
      ...remarks,
    }),
    given({
      symbol: 'εm',
      name: TRUE_STRAIN,
      value: strain,
      unit: '1',
      rounded: [],
      method: 'from the engineering strain, valid up to the maximum force',
      working: {
        formula: 'εm = ln(1 + Agt)',
        inputs: inputs.slice(0, 1),
        substituted: `εm = ln(1 + ${numberText(ratio)}) = ${numberText(strain)}`,
        source: TRUE_SOURCE,
      },
      ...remarks,
    }),
  ];
}

/** ReH/Rm with a yield point, and Rp0.2/Rm without one: the ratio that specifications limit. */
export function yieldRatio(findings: readonly Finding[], proofSymbol: string | null): Finding[] {
  const rm = resultOf(findings, 'Rm');
  const upper = resultOf(findings, 'ReH');
  const proof = proofSymbol === null ? null : resultOf(findings, proofSymbol);
  const ratio = (numerator: Result | null, symbol: string, why: string): Finding => {
    const name = `yield ratio ${symbol}/Rm`;
    if (numerator === null || rm === null)
      return withhold(
        `${symbol}/Rm`,
        name,
        'input-withheld',
        rm === null ? 'It needs Rm, which is withheld.' : why,
      );
    const value = numerator.value / rm.value;
    return given({
      symbol: `${symbol}/Rm`,
      name,
      value,
      unit: '1',
      rounded: [],
      method: 'quotient of the unrounded values',
      working: {
        formula: `${symbol}/Rm`,
        inputs: [
          { symbol, name: numerator.name, value: numerator.value, unit: 'MPa', from: 'result' },
          { symbol: 'Rm', name: rm.name, value: rm.value, unit: 'MPa', from: 'result' },
        ],
        substituted: `${numberText(numerator.value)} MPa / ${numberText(rm.value)} MPa = ${numberText(value, 4)}`,
        source: 'definition',
      },
    });
  };
  return [
    ratio(upper, 'ReH', 'It needs ReH, which is withheld.'),
    ...(proofSymbol === null
      ? []
      : [ratio(proof, proofSymbol, `It needs ${proofSymbol}, which is withheld.`)]),
  ];
}
