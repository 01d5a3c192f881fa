/**
 * What is uncertain about measured dimensions: the spread of repeated measurements, the step of the display, and
 * the error of the instrument, which all dimensions measured with it share.
 */
import { UNITS, type UnitSymbol, convert } from '../quantity/units.ts';
import type { MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import { type UncertaintyInput, rectangular } from './uncertainty.ts';

/** One dimension in a formula, with ∂result/∂dimension in the result's unit per core unit (mm, g, g/mm³). */
export interface DimensionInput {
  readonly name: string;
  readonly dimension: MeasuredDimension;
  readonly sensitivity: number;
  /** True where the mean of the measurements enters; false where one of them does (least section, centre). */
  readonly mean: boolean;
}

/** Error that a hand instrument may have where its certificate isn't given: one step of its display. */
const STEPS_OF_ERROR = 1;

/** The lines of a budget that come from measured dimensions. */
export function dimensionLines(
  inputs: readonly DimensionInput[],
  specimen: Pick<Specimen, 'instrumentResolutionMm' | 'instrumentUncertaintyMm'>,
): UncertaintyInput[] {
  return [...inputs.flatMap((input) => ownLines(input, specimen)), ...instrumentLine(inputs, specimen)];
}

function ownLines(
  { name, dimension, sensitivity, mean }: DimensionInput,
  specimen: Pick<Specimen, 'instrumentResolutionMm'>,
): UncertaintyInput[] {
  const count = dimension.measurements.length;
  const lines: UncertaintyInput[] = [];
  if (mean && dimension.standardDeviation !== null) {
    lines.push({
      source: `${name}: spread of ${String(count)} measurements`,
      standard: dimension.standardDeviation / Math.sqrt(count),
      unit: coreUnit(dimension),
      sensitivity,
      distribution: 'normal',
      degreesOfFreedom: count - 1,
    });
  }
  const step = resolution(dimension, specimen.instrumentResolutionMm);
  if (step !== null) {
    lines.push({
      source: `${name}: step of the display${specimen.instrumentResolutionMm === undefined ? ', from the digits typed' : ''}`,
      standard: rectangular(step / 2),
      unit: coreUnit(dimension),
      sensitivity,
      distribution: 'rectangular',
    });
  }
  return lines;
}

/** The one instrument's error moves every length by the same amount, so the sensitivities add with their signs. */
function instrumentLine(
  inputs: readonly DimensionInput[],
  specimen: Pick<Specimen, 'instrumentResolutionMm' | 'instrumentUncertaintyMm'>,
): UncertaintyInput[] {
  const lengths = inputs.filter(({ dimension }) => coreUnit(dimension) === 'mm');
  if (lengths.length === 0) return [];
  const sensitivity = lengths.reduce((sum, input) => sum + input.sensitivity, 0);
  const shared = lengths.length > 1 ? '; the same error in every length measured with it' : '';
  if (specimen.instrumentUncertaintyMm !== undefined)
    return [
      {
        source: `measuring instrument, from its certificate (k = 2)${shared}`,
        standard: specimen.instrumentUncertaintyMm / 2,
        unit: 'mm',
        sensitivity,
        distribution: 'normal',
      },
    ];
  const steps = lengths
    .map(({ dimension }) => resolution(dimension, specimen.instrumentResolutionMm))
    .filter((step) => step !== null);
  if (steps.length === 0) return [];
  return [
    {
      source: `measuring instrument, no certificate given: taken as within one step of its display${shared}`,
      standard: rectangular(STEPS_OF_ERROR * Math.max(...steps)),
      unit: 'mm',
      sensitivity,
      distribution: 'rectangular',
    },
  ];
}

const coreUnit = (dimension: MeasuredDimension): UnitSymbol => {
  const quantity = dimension.measurements[0]?.dimension;
  return quantity === 'mass' ? 'g' : quantity === 'density' ? 'g/mm³' : 'mm';
};

/** Step in the core's unit: as given for lengths, else the coarsest last digit typed; null where a fraction was typed. */
function resolution(dimension: MeasuredDimension, givenMm: number | undefined): number | null {
  if (givenMm !== undefined && coreUnit(dimension) === 'mm') return givenMm;
  return typedResolution(dimension);
}

/** The last digit that was typed ("12.50 mm" → 0.01 mm), the coarsest of all measurements; null for "1/2 in". */
export function typedResolution(dimension: MeasuredDimension): number | null {
  let coarsest: number | null = null;
  for (const { text, unit } of dimension.measurements) {
    const step = lastDigit(text);
    if (step === null) return null;
    const core = convert(step, unit, coreUnitOf(unit));
    if (coarsest === null || core > coarsest) coarsest = core;
  }
  return coarsest;
}

const coreUnitOf = (unit: UnitSymbol): UnitSymbol => {
  const { dimension } = UNITS[unit];
  return dimension === 'mass' ? 'g' : dimension === 'density' ? 'g/mm³' : 'mm';
};

/** Value of the last digit of a typed number; null for a fraction, whose fineness nobody can read off. */
function lastDigit(text: string): number | null {
  const trimmed = text.trim();
  if (/\d\s*\/\s*\d/.test(trimmed)) return null;
  const exponent = Number(/^[^a-zA-Z]*[eE]([+-]?\d{1,3})/.exec(trimmed)?.[1] ?? '0');
  // "1,000 in": three digits behind a comma that doesn't follow a zero are thousands (see parseQuantity).
  if (/^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?![\d.,])/.test(trimmed)) return 10 ** exponent;
  const decimals = /^[+-]?[\d\s\u00a0\u202f]*(?:[.,](\d*))?/.exec(trimmed)?.[1]?.length ?? 0;
  return 10 ** (exponent - decimals);
}
