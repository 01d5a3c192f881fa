/**
 * Uncertainty of mE, the slope of the elastic part: the scatter of the fit, and the scales of what it is a quotient
 * of. mE = ΔF·Le/(S0·ΔL), so that each of them moves it by its own relative uncertainty.
 */
import type { ElasticSlope, StrainSource } from './evaluation.ts';
import { type ExtensometerClass, forceLines } from './force-uncertainty.ts';
import type { ResultUncertainty } from './result.ts';
import type { StrengthInput } from './strength-uncertainty.ts';
import { combinedUncertainty, rectangular } from './uncertainty.ts';

/** What ISO 9513 allows an extensometer of a class (from memory): indication in % or µm, whichever is larger, and Le. */
const CLASS_LIMITS: Readonly<Record<ExtensometerClass, { readonly percent: number; readonly mm: number }>> = {
  '0.5': { percent: 0.5, mm: 0.0015 },
  '1': { percent: 1, mm: 0.003 },
  '2': { percent: 2, mm: 0.006 },
};

export interface SlopeUncertaintyInput extends Omit<StrengthInput, 'stressMpa'> {
  readonly slope: ElasticSlope;
  readonly strain: StrainSource;
}

/** In MPa; null where the strain is from crosshead travel, whose scale nobody knows. */
export function slopeUncertainty({
  slope,
  strain,
  areaMm2,
  areaLines,
  systems,
}: SlopeUncertaintyInput): ResultUncertainty | null {
  if (strain.channel === 'travel') return null;
  const m = slope.slopeMpa;
  const forceN = slope.meanStressMpa * areaMm2;
  if (!(forceN > 0)) return null;
  const given = systems.extensometerClass;
  const name = `class ${given ?? '1'} of ISO 9513${given === undefined ? ' (assumed)' : ''}`;
  const limit = CLASS_LIMITS[given ?? '1'];
  const extensionMm = ((slope.upperMpa - slope.lowerMpa) / m) * strain.lengthMm;
  const relative = limit.percent / 100;
  // A strain column has no length of its own to say what its micrometres are.
  const absolute = strain.channel === 'extension' && extensionMm > 0 ? limit.mm / extensionMm : 0;
  return combinedUncertainty([
    {
      source: `scatter about the line, ${String(slope.readings)} readings`,
      standard: slope.standardUncertaintyMpa,
      unit: 'MPa',
      sensitivity: 1,
      distribution: 'normal',
      degreesOfFreedom: Math.max(1, slope.readings - 2),
    },
    ...forceLines(forceN, m / forceN, systems),
    ...areaLines.map((line) => ({ ...line, sensitivity: (-line.sensitivity * m) / areaMm2 })),
    {
      source: `extension, ${name}: ${
        absolute > relative
          ? `${String(1000 * limit.mm)} µm over the ${(1000 * extensionMm).toPrecision(3)} µm of the fit`
          : `${String(limit.percent)} %`
      } (from memory)`,
      standard: rectangular(Math.max(relative, absolute)),
      unit: '1',
      sensitivity: -m,
      distribution: 'rectangular',
    },
    {
      source: `extensometer gauge length Le, ${name}: ${String(limit.percent)} % (from memory)`,
      standard: rectangular(relative),
      unit: '1',
      sensitivity: m,
      distribution: 'rectangular',
    },
  ]);
}
