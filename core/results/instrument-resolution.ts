/**
 * Whether the calliper or micrometer is fine enough for the size it measured: ASTM E8/E8M 7.2.1 by size range,
 * ISO 6892-1 as a share of the size (both from memory). A warning with the figure, never a refusal.
 */
import { numberText } from '../quantity/number-text.ts';
import type { Geometry, MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import { typedResolution } from './dimension-uncertainty.ts';

export interface ResolutionCheck {
  readonly standard: 'ASTM E8/E8M' | 'ISO 6892-1';
  readonly dimension: string;
  readonly sizeMm: number;
  /** Coarsest step allowed for this size, mm. */
  readonly allowedMm: number;
  /** Step of the instrument, mm; absent where it is neither given nor to be seen from what was typed. */
  readonly stepMm?: number;
  readonly verdict: 'fine-enough' | 'too-coarse' | 'not-known';
  readonly sentence: string;
  readonly source: string;
}

/** Sizes from `fromMm` up need this step. The two systems are not exact equivalents; that of the measurement counts. */
const E8_STEPS: readonly { readonly fromMm: number; readonly inch: string; readonly mm: string }[] = [
  { fromMm: 5, inch: '0.001', mm: '0.02' },
  { fromMm: 2.5, inch: '0.0005', mm: '0.01' },
  { fromMm: 0.5, inch: '0.0001', mm: '0.002' },
];
const INCH_MM = 25.4;
/** Below the smallest range: one percent of the size, but never coarser than the last step. */
const E8_SMALL_SHARE = 0.01;

/** Share of the size that the error of a dimension may be, by ISO 6892-1. */
const ISO_SHARES = {
  dimension: 0.005,
  thinSheetWidth: 0.002,
  thinSheetThickness: 0.02,
} as const;
const THIN_SHEET_MM = 3;

/** Each measured dimension of the original section against each standard; masses and densities are not judged. */
export function resolutionChecks(specimen: Specimen): ResolutionCheck[] {
  return dimensionsOf(specimen.geometry).flatMap(({ name, dimension, isoShare }) => {
    const stepMm = specimen.instrumentResolutionMm ?? typedResolution(dimension) ?? undefined;
    const typed = specimen.instrumentResolutionMm === undefined;
    const inches = dimension.measurements.every(({ unit }) => unit === 'in' || unit === 'mil');
    return [
      judge('ASTM E8/E8M', name, dimension.mean, stepMm, typed, e8Allowed(dimension.mean, inches)),
      judge('ISO 6892-1', name, dimension.mean, stepMm, typed, {
        allowedMm: isoShare * dimension.mean,
        words: `${numberText(100 * isoShare)} % of the size`,
        inches,
      }),
    ];
  });
}

interface Allowed {
  readonly allowedMm: number;
  readonly words: string;
  /** True where the figures are said in inches, as they were measured. */
  readonly inches: boolean;
}

function e8Allowed(sizeMm: number, inches: boolean): Allowed {
  const range = E8_STEPS.find(({ fromMm }) => sizeMm >= fromMm);
  const { inch, mm } = range ?? { inch: '0.0001', mm: '0.002' };
  const stepMm = inches ? Number(inch) * INCH_MM : Number(mm);
  const words = inches ? `${inch} in` : `${mm} mm`;
  return range === undefined
    ? {
        allowedMm: Math.min(E8_SMALL_SHARE * sizeMm, stepMm),
        words: `1 % of the size, at most ${words}`,
        inches,
      }
    : { allowedMm: stepMm, words, inches };
}

const lengthText = (mm: number, digits: number, inches: boolean): string =>
  inches ? `${numberText(mm / INCH_MM, digits)} in` : `${numberText(mm, digits)} mm`;

function judge(
  standard: ResolutionCheck['standard'],
  dimension: string,
  sizeMm: number,
  stepMm: number | undefined,
  typed: boolean,
  { allowedMm, words, inches }: Allowed,
): ResolutionCheck {
  const base = {
    standard,
    dimension,
    sizeMm,
    allowedMm,
    source:
      standard === 'ASTM E8/E8M'
        ? 'ASTM E8/E8M 7.2.1 (from memory)'
        : 'ISO 6892-1, clause on the original section (from memory)',
  };
  const asked = `${standard} asks for ${words} on ${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension} of ${lengthText(sizeMm, 4, inches)}`;
  if (stepMm === undefined)
    return {
      ...base,
      verdict: 'not-known',
      sentence: `${asked}; the step of the instrument is not known, give instrumentResolution with the specimen.`,
    };
  const step = `${lengthText(stepMm, 3, inches)}${typed ? ', from the digits typed' : ''}`;
  // A ten-thousandth of tolerance keeps a step that was converted inside its own limit.
  return stepMm <= allowedMm * 1.0001
    ? {
        ...base,
        stepMm,
        verdict: 'fine-enough',
        sentence: `${asked}; the instrument shows ${step}: fine enough.`,
      }
    : {
        ...base,
        stepMm,
        verdict: 'too-coarse',
        sentence: `${asked}; the instrument shows ${step}: too coarse, measure with a finer one.`,
      };
}

interface JudgedDimension {
  readonly name: string;
  readonly dimension: MeasuredDimension;
  readonly isoShare: number;
}

function dimensionsOf(geometry: Geometry): JudgedDimension[] {
  const of = (name: string, dimension: MeasuredDimension, isoShare: number = ISO_SHARES.dimension) => ({
    name,
    dimension,
    isoShare,
  });
  switch (geometry.kind) {
    case 'flat': {
      const thin = geometry.thickness.mean < THIN_SHEET_MM;
      return [
        of('width', geometry.width, thin ? ISO_SHARES.thinSheetWidth : ISO_SHARES.dimension),
        of('thickness', geometry.thickness, thin ? ISO_SHARES.thinSheetThickness : ISO_SHARES.dimension),
      ];
    }
    case 'round':
      return [of('diameter', geometry.diameter)];
    case 'tube':
      return [of('outside diameter', geometry.outerDiameter), of('wall', geometry.wall)];
    case 'pipe-strip':
      return [of('width', geometry.width), of('wall', geometry.wall)];
    case 'weighed':
    case 'unmeasured':
      return [];
  }
}
