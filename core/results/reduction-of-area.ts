/**
 * Z, percentage reduction of area: S0 against the least section after the fracture. Round: mean of the largest and
 * the smallest diameter at the neck. Flat: width times thickness, where three thicknesses (edge, centre, edge) are
 * taken as a parabola, (t1 + 4·t2 + t3)/6.
 */
import { numberText } from '../quantity/number-text.ts';
import type { MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import { type Finding, given, withhold } from './finding.ts';
import type { WorkingInput } from './result.ts';

export const FINAL_SECTION_FORMS = ['parabola', 'plain'] as const;
export type FinalSectionForm = (typeof FINAL_SECTION_FORMS)[number];

export interface ReductionOptions {
  /** For a flat specimen; without it a parabola where exactly three thicknesses were measured, else plain. */
  readonly finalSection?: FinalSectionForm;
}

export interface FinalSection {
  readonly areaMm2: number;
  readonly formula: string;
  readonly substituted: string;
  readonly inputs: readonly WorkingInput[];
  readonly source: string;
  readonly remarks: readonly string[];
}

const SYMBOL = 'Z';
const NAME = 'percentage reduction of area';

/** Z in percent; null where the final section was not measured. */
export function reductionOfArea(
  specimen: Specimen | null,
  areaMm2: number | undefined,
  options: ReductionOptions = {},
): Finding | null {
  if (specimen === null) return null;
  const section = finalSection(specimen, options);
  if (section === null) return null;
  if ('code' in section) return withhold(SYMBOL, NAME, section.code, section.reason);
  if (areaMm2 === undefined)
    return withhold(
      SYMBOL,
      NAME,
      'no-area',
      'The original cross-section is not known, so there is nothing to compare the final one with.',
    );
  const su = section.areaMm2;
  if (su > areaMm2)
    return withhold(
      SYMBOL,
      NAME,
      'larger-than-before',
      `The final section (${numberText(su, 5)} mm²) is larger than the original one (${numberText(areaMm2, 5)} mm²); measure at the neck again and check the units.`,
    );
  const value = reductionPercent(areaMm2, su);
  return given({
    symbol: SYMBOL,
    name: NAME,
    value,
    unit: '%',
    rounded: [],
    method: `final section at the neck, ${section.formula}`,
    working: {
      formula: 'Z = (S0 − Su)/S0 × 100 %',
      inputs: [
        {
          symbol: 'S0',
          name: 'original cross-section area',
          value: areaMm2,
          unit: 'mm²',
          from: 'S0, unrounded',
        },
        { symbol: 'Su', name: 'final cross-section area', value: su, unit: 'mm²', from: 'Su, unrounded' },
        ...section.inputs,
      ],
      substituted: `Z = (${numberText(areaMm2)} mm² − ${numberText(su)} mm²) / ${numberText(areaMm2)} mm² × 100 % = ${numberText(value)} %`,
      source: section.source,
      steps: [section.substituted],
    },
    ...(section.remarks.length === 0 ? {} : { remarks: section.remarks }),
  });
}

/** (S0 − Su)/S0 in percent. */
export function reductionPercent(areaMm2: number, finalAreaMm2: number): number {
  return ((areaMm2 - finalAreaMm2) / areaMm2) * 100;
}

/** Su with its working; null where nothing was measured; a reason where what was measured doesn't fit the shape. */
export function finalSection(
  specimen: Specimen,
  options: ReductionOptions,
): FinalSection | { readonly code: string; readonly reason: string } | null {
  const { geometry, finalDiameter, finalWidth, finalThickness } = specimen;
  if (geometry.kind === 'round') {
    if (finalDiameter !== undefined) return roundSection(finalDiameter);
    return finalWidth === undefined && finalThickness === undefined
      ? null
      : {
          code: 'final-size-unfit',
          reason:
            'The specimen is round; give the final diameter (two, at right angles) instead of width and thickness.',
        };
  }
  if (geometry.kind === 'flat') {
    if (finalWidth !== undefined && finalThickness !== undefined)
      return flatSection(finalWidth, finalThickness, options);
    if (finalWidth === undefined && finalThickness === undefined && finalDiameter === undefined) return null;
    return {
      code: 'final-size-missing',
      reason: 'A flat specimen needs final width and final thickness, both at the neck.',
    };
  }
  if (geometry.kind === 'unmeasured')
    return {
      code: 'section-not-measured',
      reason:
        'The original section was not measured, so there is nothing to compare the final one with; correct the specimen, giving its sizes and the reason.',
    };
  return {
    code: 'final-shape-undefined',
    reason:
      'Reduction of area is defined here for round and flat specimens; a tube, a strip from pipe or a weighed section has no standard final section.',
  };
}

function roundSection(diameter: MeasuredDimension): FinalSection {
  const mean = (diameter.min + diameter.max) / 2;
  const areaMm2 = (Math.PI / 4) * mean ** 2;
  const count = diameter.measurements.length;
  return {
    areaMm2,
    formula: count === 1 ? 'Su = π·du²/4' : 'Su = π·du²/4, du mean of largest and smallest',
    inputs: [
      {
        symbol: 'du',
        name: 'final diameter',
        value: mean,
        unit: 'mm',
        from:
          count === 1
            ? 'measured once at the neck'
            : `mean of largest (${numberText(diameter.max)} mm) and smallest (${numberText(diameter.min)} mm) of ${String(count)} at the neck`,
      },
    ],
    substituted: `Su = π × (${numberText(mean)} mm)² / 4 = ${numberText(areaMm2)} mm²`,
    source: 'ISO 6892-1 and ASTM E8/E8M (from memory)',
    remarks:
      count === 1
        ? ['One diameter was measured at the neck; two at right angles show whether it stayed round.']
        : [],
  };
}

function flatSection(
  width: MeasuredDimension,
  thickness: MeasuredDimension,
  options: ReductionOptions,
): FinalSection | { readonly code: string; readonly reason: string } {
  const [edge, centre, otherEdge, ...further] = thickness.measurements;
  const three = edge !== undefined && centre !== undefined && otherEdge !== undefined && further.length === 0;
  const form = options.finalSection ?? (three ? 'parabola' : 'plain');
  if (form === 'parabola' && !three)
    return {
      code: 'final-thickness-count',
      reason:
        'The parabolic form needs three final thicknesses at the neck, in the order edge, centre, edge.',
    };
  if (form === 'parabola' && three) {
    const mean = (edge.core + 4 * centre.core + otherEdge.core) / 6;
    const areaMm2 = width.mean * mean;
    return {
      areaMm2,
      formula: 'Su = bu·(t1 + 4·t2 + t3)/6',
      inputs: [
        widthInput(width),
        {
          symbol: 't1',
          name: 'final thickness at one edge',
          value: edge.core,
          unit: 'mm',
          from: 'measured at the neck',
        },
        {
          symbol: 't2',
          name: 'final thickness at the centre',
          value: centre.core,
          unit: 'mm',
          from: 'measured at the neck',
        },
        {
          symbol: 't3',
          name: 'final thickness at the other edge',
          value: otherEdge.core,
          unit: 'mm',
          from: 'measured at the neck',
        },
      ],
      substituted: `Su = ${numberText(width.mean)} mm × (${numberText(edge.core)} mm + 4 × ${numberText(centre.core)} mm + ${numberText(otherEdge.core)} mm) / 6 = ${numberText(areaMm2)} mm²`,
      source: 'ASTM E8/E8M, parabolic form for a flat specimen (from memory)',
      remarks: ['The three final thicknesses are taken as edge, centre, edge.'],
    };
  }
  const areaMm2 = width.mean * thickness.mean;
  return {
    areaMm2,
    formula: 'Su = bu·tu',
    inputs: [
      widthInput(width),
      {
        symbol: 'tu',
        name: 'final thickness',
        value: thickness.mean,
        unit: 'mm',
        from: countWords(thickness),
      },
    ],
    substituted: `Su = ${numberText(width.mean)} mm × ${numberText(thickness.mean)} mm = ${numberText(areaMm2)} mm²`,
    source: 'ASTM E8/E8M, measured width times thickness (from memory)',
    remarks: [],
  };
}

const widthInput = (width: MeasuredDimension): WorkingInput => ({
  symbol: 'bu',
  name: 'final width',
  value: width.mean,
  unit: 'mm',
  from: countWords(width),
});

const countWords = (dimension: MeasuredDimension): string =>
  dimension.measurements.length === 1
    ? 'measured once at the neck'
    : `mean of ${String(dimension.measurements.length)} at the neck`;
