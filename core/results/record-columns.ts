/**
 * The columns that the results are computed from: force and stress, strain and where it comes from, with the
 * corrections that were asked for. Columns are used in place; only a correction table makes a new one.
 */
import type { Channel } from '../curve/channel.ts';
import { throughTable, withoutCompliance } from '../curve/correction-table.ts';
import type { Curve } from '../curve/curve.ts';
import { numberText } from '../quantity/number-text.ts';
import type { Specimen } from '../specimen/specimen.ts';
import type { Corrections, EvaluationOptions, StrainSource } from './evaluation.ts';
import type { Reason } from './finding.ts';

export interface RecordColumns {
  readonly length: number;
  /** N. */
  readonly force?: Channel;
  /** MPa; the same column as force where it is force over area. */
  readonly stress?: Channel;
  readonly stressFrom: 'force' | 'stress-column' | 'none';
  /** Why there is no stress; null where there is one. */
  readonly stressMissing: Reason | null;
  /** Plain ratio as recorded, zero of the record. */
  readonly strain?: Channel;
  readonly strainSource?: StrainSource;
  readonly strainMissing: Reason | null;
  readonly timeS?: Float64Array;
  readonly areaMm2?: number;
  /** What was corrected, a sentence each. */
  readonly corrected: readonly string[];
}

export const FROM_TRAVEL = 'from crosshead travel, not a gauge-length strain';

export function recordColumns(
  curve: Curve,
  specimen: Specimen | null,
  areaMm2: number | undefined,
  options: EvaluationOptions,
): RecordColumns {
  const corrected: string[] = [];
  const corrections = options.corrections ?? {};
  const force = forceChannel(curve, corrections, corrected);
  const farForce = force === null ? null : zeroBeyond(force, 'force', 'N');
  const stress =
    farForce === null
      ? stressChannel(curve, force, areaMm2)
      : ({ stressFrom: 'none', stressMissing: farForce } as const);
  const strain = sound(
    options.strainFrom === 'travel'
      ? travelStrain(curve, specimen, force, corrections, corrected)
      : gaugeStrain(curve, specimen, corrections, corrected),
  );
  return {
    length: curve.length,
    ...(force === null || farForce !== null ? {} : { force }),
    ...stress,
    ...strain,
    ...(curve.timeS === undefined || !hasValues(curve.timeS) ? {} : { timeS: curve.timeS }),
    ...(areaMm2 === undefined ? {} : { areaMm2 }),
    corrected,
  };
}

/** A zero that lies farther out than anything that was recorded is a slip of a digit or a unit: nothing would stand. */
function zeroBeyond({ column, zero }: Channel, name: string, unit: string): Reason | null {
  if (zero === 0) return null;
  let farthest = 0;
  for (const value of column) if (Math.abs(value) > farthest) farthest = Math.abs(value);
  return Math.abs(zero) <= farthest
    ? null
    : {
        code: 'zero-beyond-record',
        reason: `The zero of the ${name} is set to ${numberText(zero)} ${unit}, farther out than anything recorded (${numberText(farthest, 4)} ${unit}); look for a wrong digit or unit in it, or leave the correction out.`,
      };
}

function sound(found: StrainColumns): StrainColumns {
  const { strain, strainSource } = found;
  if (strain === undefined || strainSource === undefined) return found;
  const far = zeroBeyond(strain, strainSource.channel === 'travel' ? 'crosshead travel' : 'extension', 'mm');
  return far === null ? found : { strainMissing: far };
}

function forceChannel(curve: Curve, corrections: Corrections, corrected: string[]): Channel | null {
  if (curve.forceN === undefined || !hasValues(curve.forceN)) return null;
  let column = curve.forceN;
  if (corrections.forceTable !== undefined) {
    column = throughTable(
      column,
      corrections.forceTable.map((p) => ({ x: p.shown, y: p.actual })),
    );
    corrected.push(
      `Force is corrected by a calibration table of ${String(corrections.forceTable.length)} points.`,
    );
  }
  const zero = corrections.forceZeroN ?? 0;
  if (zero !== 0) corrected.push(`${numberText(zero)} N is taken off every force as its zero.`);
  return { column, zero, factor: 1 };
}

function stressChannel(
  curve: Curve,
  force: Channel | null,
  areaMm2: number | undefined,
): Pick<RecordColumns, 'stress' | 'stressFrom' | 'stressMissing'> {
  if (force !== null && areaMm2 !== undefined)
    return { stress: { ...force, factor: 1 / areaMm2 }, stressFrom: 'force', stressMissing: null };
  if (curve.stressMpa !== undefined && hasValues(curve.stressMpa))
    return {
      stress: { column: curve.stressMpa, zero: 0, factor: 1 },
      stressFrom: 'stress-column',
      stressMissing: null,
    };
  return {
    stressFrom: 'none',
    stressMissing:
      force === null
        ? {
            code: 'no-force',
            reason: 'The curve has no readings of force or stress; check the channel in the readout profile.',
          }
        : {
            code: 'no-area',
            reason:
              'There is no cross-section to divide the force by; give the measured dimensions of the specimen.',
          },
  };
}

type StrainColumns = Pick<RecordColumns, 'strain' | 'strainSource' | 'strainMissing'>;

function gaugeStrain(
  curve: Curve,
  specimen: Specimen | null,
  corrections: Corrections,
  corrected: string[],
): StrainColumns {
  const length = gaugeLength(specimen);
  if (curve.extensionMm !== undefined && hasValues(curve.extensionMm) && length !== null) {
    let column = curve.extensionMm;
    if (corrections.extensionTable !== undefined) {
      column = throughTable(
        column,
        corrections.extensionTable.map((p) => ({ x: p.shown, y: p.actual })),
      );
      corrected.push(
        `Extension is corrected by a calibration table of ${String(corrections.extensionTable.length)} points.`,
      );
    }
    const zero = corrections.extensionZeroMm ?? 0;
    if (zero !== 0) corrected.push(`${numberText(zero)} mm is taken off every extension as its zero.`);
    return {
      strain: { column, zero, factor: 1 / length.mm },
      strainSource: { channel: 'extension', lengthMm: length.mm, lengthName: length.name },
      strainMissing: null,
    };
  }
  if (curve.strainRatio !== undefined && hasValues(curve.strainRatio))
    return {
      strain: { column: curve.strainRatio, zero: 0, factor: 1 },
      strainSource: { channel: 'strain', lengthMm: 1, lengthName: 'strain column of the file' },
      strainMissing: null,
    };
  return { strainMissing: noStrain(curve) };
}

function noStrain(curve: Curve): Reason {
  if (curve.extensionMm !== undefined && hasValues(curve.extensionMm))
    return {
      code: 'no-gauge-length',
      reason: 'The gauge length of the extensometer is not known; give gaugeLength with the specimen.',
    };
  if (curve.travelMm !== undefined && hasValues(curve.travelMm))
    return {
      code: 'travel-only',
      reason:
        'The curve has crosshead travel but no extensometer; travel contains frame, grips and slack and is no gauge-length strain.',
    };
  return {
    code: 'no-extension',
    reason:
      'The curve has no readings of extension or strain; an extensometer on the specimen would give it.',
  };
}

function travelStrain(
  curve: Curve,
  specimen: Specimen | null,
  force: Channel | null,
  corrections: Corrections,
  corrected: string[],
): StrainColumns {
  const { travelMm } = curve;
  const parallel = specimen?.parallelLengthMm;
  const length =
    parallel === undefined ? gaugeLength(specimen) : { mm: parallel, name: 'parallel length Lc' };
  if (travelMm === undefined || !hasValues(travelMm))
    return {
      strainMissing: { code: 'no-travel', reason: 'The curve has no readings of crosshead travel.' },
    };
  if (length === null)
    return {
      strainMissing: {
        code: 'no-gauge-length',
        reason:
          'Travel needs a length to be divided by; give parallelLength or gaugeLength with the specimen.',
      },
    };
  let column = travelMm;
  if (corrections.frameCompliance !== undefined && force !== null) {
    column = withoutCompliance(column, force, corrections.frameCompliance);
    corrected.push(
      `Travel is corrected for frame and grips by a blank run of ${String(corrections.frameCompliance.length)} points.`,
    );
  }
  const zero = corrections.travelZeroMm ?? 0;
  if (zero !== 0) corrected.push(`${numberText(zero)} mm is taken off every travel as its zero.`);
  return {
    strain: { column, zero, factor: 1 / length.mm },
    strainSource: { channel: 'travel', lengthMm: length.mm, lengthName: length.name },
    strainMissing: null,
  };
}

function gaugeLength(specimen: Specimen | null): { mm: number; name: string } | null {
  if (specimen?.extensometerGaugeLengthMm !== undefined)
    return { mm: specimen.extensometerGaugeLengthMm, name: 'extensometer gauge length Le' };
  const mean = specimen?.gaugeLength?.mean;
  return mean === undefined ? null : { mm: mean, name: 'gauge length L0' };
}

/** True as soon as one value is there; a column that is all blanks is no channel. */
function hasValues(column: Float64Array): boolean {
  for (const value of column) if (Number.isFinite(value)) return true;
  return false;
}
