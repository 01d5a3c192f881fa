/**
 * Elongation on another gauge length or section, only on request: ISO 2566-1 (carbon and low alloy steel, exponent
 * 0.4) and ISO 2566-2 (austenitic steel, exponent 0.127). Rule and exponents from memory.
 */
import { numberText } from '../quantity/number-text.ts';
import type { Result } from './result.ts';

/** Kinds of material that ISO 2566 has a part for. */
export const MATERIAL_KINDS = ['carbon', 'austenitic'] as const;
export type MaterialKind = (typeof MATERIAL_KINDS)[number];

interface RuleFacts {
  /** The rule by its name. */
  readonly title: string;
  readonly exponent: number;
  readonly materials: string;
}

const RULES: Readonly<Record<MaterialKind, RuleFacts>> = {
  carbon: {
    title: 'ISO 2566-1',
    exponent: 0.4,
    materials:
      'carbon, carbon-manganese, molybdenum and chromium-molybdenum steels of 300 to 700 MPa, hot rolled, normalised or tempered; not cold worked, not quenched and tempered, not austenitic',
  },
  austenitic: {
    title: 'ISO 2566-2',
    exponent: 0.127,
    materials: 'austenitic steels of 450 to 750 MPa, solution treated; not cold worked beyond a quarter',
  },
};

export interface GaugeAndSection {
  readonly gaugeLengthMm: number;
  readonly areaMm2: number;
}

/** Above this ratio of L0 to √S0 the rule says nothing. */
const RATIO_MAX = 25;

/**
 * A on `to` from A on `from`: A₂ = A₁·((L₁/√S₁)·(√S₂/L₂))^m. Throws a RangeError unless all sizes are above zero.
 */
export function elongationOnOtherLength(
  elongation: { readonly percent: number; readonly from: GaugeAndSection; readonly to: GaugeAndSection },
  kind: MaterialKind,
): Result {
  const { percent, from, to } = elongation;
  for (const size of [from.gaugeLengthMm, from.areaMm2, to.gaugeLengthMm, to.areaMm2])
    if (!(size > 0)) throw new RangeError('gauge lengths and areas must be greater than zero');
  const { title, exponent, materials } = RULES[kind];
  const ratio = (at: GaugeAndSection): number => at.gaugeLengthMm / Math.sqrt(at.areaMm2);
  const factor = (ratio(from) / ratio(to)) ** exponent;
  const value = percent * factor;
  const beyond = [from, to].some((at) => ratio(at) > RATIO_MAX);
  const toText = numberText(to.gaugeLengthMm, 4);
  return {
    symbol: `A${toText}mm (${title})`,
    name: `percentage elongation after fracture, converted to a gauge length of ${toText} mm`,
    value,
    unit: '%',
    rounded: [],
    method: `converted on request by ${title}, not measured`,
    working: {
      formula: `A₂ = A₁·((L₁/√S₁)·(√S₂/L₂))^${String(exponent)}`,
      inputs: [
        { symbol: 'A₁', name: 'elongation measured', value: percent, unit: '%', from: 'A' },
        {
          symbol: 'L₁',
          name: 'gauge length measured on',
          value: from.gaugeLengthMm,
          unit: 'mm',
          from: 'specimen',
        },
        { symbol: 'S₁', name: 'section measured on', value: from.areaMm2, unit: 'mm²', from: 'S0' },
        {
          symbol: 'L₂',
          name: 'gauge length asked for',
          value: to.gaugeLengthMm,
          unit: 'mm',
          from: 'asked for',
        },
        { symbol: 'S₂', name: 'section asked for', value: to.areaMm2, unit: 'mm²', from: 'asked for' },
      ],
      substituted: `A₂ = ${numberText(percent)} % × (${numberText(ratio(from), 4)} / ${numberText(ratio(to), 4)})^${String(exponent)} = ${numberText(value)} %`,
      source: `${title} (from memory)`,
    },
    remarks: [
      `The rule holds for ${materials}; whether it does here is for the reader to judge.`,
      ...(beyond
        ? [
            `A gauge length of more than ${String(RATIO_MAX)}·√S0 lies outside the rule; this value is beyond it.`,
          ]
        : []),
    ],
  };
}
