/** Uncertainty of strengths: Rm = Fm/S0, and a proof strength, where slope and strain scale move the crossing. */
import type { ElasticSlope } from './evaluation.ts';
import type { MeasuringSystems } from './force-uncertainty.ts';
import { forceLines } from './force-uncertainty.ts';
import type { ResultUncertainty } from './result.ts';
import { type UncertaintyInput, combinedUncertainty, rectangular } from './uncertainty.ts';

export interface StrengthInput {
  readonly stressMpa: number;
  readonly areaMm2: number;
  /** Budget lines of S0 in mm², from `areaLines`. */
  readonly areaLines: readonly UncertaintyInput[];
  readonly systems: MeasuringSystems;
}

/** Lines of a stress F/S0 in MPa. */
export function strengthLines({ stressMpa, areaMm2, areaLines, systems }: StrengthInput): UncertaintyInput[] {
  const perArea = -stressMpa / areaMm2;
  return [
    ...forceLines(stressMpa * areaMm2, 1 / areaMm2, systems),
    ...areaLines.map((line) => ({ ...line, sensitivity: line.sensitivity * perArea })),
  ];
}

/** Uncertainty of Rm (or of ReH, ReL) in MPa. */
export const strengthUncertainty = (input: StrengthInput): ResultUncertainty =>
  combinedUncertainty(strengthLines(input));

export interface ProofInput extends StrengthInput {
  /** Slope of the elastic part and its standard uncertainty, MPa. */
  readonly slopeMpa: number;
  readonly slopeStandardMpa: number;
  readonly slopeReadings: number;
  /** Mean stress of the readings that the elastic line was fitted to. */
  readonly fitMeanStressMpa: number;
  /** Slope of the curve itself where the offset line meets it, MPa. */
  readonly tangentMpa: number;
  /** 0.002 for Rp0.2. */
  readonly offsetRatio: number;
  /** Scatter of the readings about the curve at the crossing, MPa, and how many readings it was averaged over. */
  readonly scatterMpa?: number;
  readonly scatterReadings?: number;
}

/**
 * Uncertainty of a proof strength in MPa. The line R = R̄ + m·(e − ē − p) turns about the middle of its fit (ē, R̄),
 * which a least-squares slope doesn't move. Where it meets a curve of slope h:
 * ∂Rp/∂m = −h·(Rp − R̄)/(m·(m − h)), and for the offset ∂Rp/∂p = h·m/(m − h), so that a strain scale wrong by q
 * (Le and amplification together) moves it by −p·h·m/(m − h)·q.
 */
export function proofUncertainty(input: ProofInput): ResultUncertainty {
  const { stressMpa, slopeMpa: m, tangentMpa: h, offsetRatio: p } = input;
  const lines = strengthLines(input);
  const steep = m - h;
  if (steep > 0) {
    lines.push({
      source: `slope of the elastic part, ${String(input.slopeReadings)} readings`,
      standard: input.slopeStandardMpa,
      unit: 'MPa',
      sensitivity: (-h * (stressMpa - input.fitMeanStressMpa)) / (m * steep),
      distribution: 'normal',
      degreesOfFreedom: Math.max(1, input.slopeReadings - 2),
    });
    const extensometer = input.systems.extensometerClass;
    lines.push({
      source: `extensometer, class ${extensometer ?? '1'} of ISO 9513${extensometer === undefined ? ' (assumed: ISO 6892-1 asks for class 1)' : ''}`,
      standard: rectangular(Number(extensometer ?? '1') / 100),
      unit: '1',
      sensitivity: (-p * h * m) / steep,
      distribution: 'rectangular',
    });
  }
  const { scatterMpa = 0, scatterReadings = 1 } = input;
  if (scatterMpa > 0)
    lines.push({
      source: `scatter of the readings where the offset line meets the curve, ${String(scatterReadings)} readings`,
      standard: scatterMpa / Math.sqrt(Math.max(1, scatterReadings)),
      unit: 'MPa',
      // The crossing lies on the steep offset line: a stress off by δ moves it by δ·m/(m − h).
      sensitivity: steep > 0 ? m / steep : 1,
      distribution: 'normal',
      ...(scatterReadings > 2 ? { degreesOfFreedom: scatterReadings - 2 } : {}),
    });
  return combinedUncertainty(lines);
}

export interface TotalExtensionInput extends StrengthInput {
  /** The elastic line, where its foot is the zero of the extension. */
  readonly slope?: ElasticSlope;
  /** Slope of the curve over total strain where it is read off, MPa. */
  readonly tangentMpa: number;
  /** 0.005 for Rt0.5. */
  readonly totalRatio: number;
  readonly scatterMpa: number;
  readonly scatterReadings: number;
}

/**
 * Uncertainty of a strength at a total extension in MPa. The vertical stands at e0 + p, with e0 = ē − R̄/m the foot of
 * the line: ∂R/∂m = h·R̄/m², and a strain scale wrong by q moves it by −h·p·q.
 */
export function totalExtensionUncertainty(input: TotalExtensionInput): ResultUncertainty {
  const { tangentMpa: h, totalRatio: p, slope, scatterMpa, scatterReadings } = input;
  const extensometer = input.systems.extensometerClass;
  return combinedUncertainty([
    ...strengthLines(input),
    ...(slope === undefined
      ? []
      : [
          {
            source: `slope of the elastic part, ${String(slope.readings)} readings, by the foot of its line`,
            standard: slope.standardUncertaintyMpa,
            unit: 'MPa',
            sensitivity: (h * slope.meanStressMpa) / slope.slopeMpa ** 2,
            distribution: 'normal',
            degreesOfFreedom: Math.max(1, slope.readings - 2),
          } as const,
        ]),
    {
      source: `extensometer, class ${extensometer ?? '1'} of ISO 9513${extensometer === undefined ? ' (assumed: ISO 6892-1 asks for class 1)' : ''}`,
      standard: rectangular(Number(extensometer ?? '1') / 100),
      unit: '1',
      sensitivity: -p * h,
      distribution: 'rectangular',
    },
    ...(scatterMpa > 0
      ? [
          {
            source: `scatter of the readings about that extension, ${String(scatterReadings)} readings`,
            standard: scatterMpa / Math.sqrt(Math.max(1, scatterReadings)),
            unit: 'MPa',
            sensitivity: 1,
            distribution: 'normal',
            ...(scatterReadings > 2 ? { degreesOfFreedom: scatterReadings - 2 } : {}),
          } as const,
        ]
      : []),
  ]);
}
