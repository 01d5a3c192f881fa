/**
 * Results that a list shows and sorts by, without evaluating anything: the tensile strength, which a search filters by too,
 * as opening the pull would give it; yield and elongation after fracture as they are stated.
 */
import { z } from 'zod';
import { YIELD_SYMBOLS } from '../../acceptance/measured-from-results.ts';
import { type KeptValue, keptValues } from '../../contract/evaluation-requests.ts';
import { UNITS } from '../../quantity/units.ts';
import { area } from '../../results/area.ts';
import { elongationAfterFracture } from '../../results/elongation-after-fracture.ts';
import { measuredInInches } from '../../results/specimen-findings.ts';
import { readSpecimen } from '../../specimen/read-specimen.ts';
import type { Specimen } from '../../specimen/specimen.ts';
import type { SpecimenFile } from '../../specimen/specimen-file.ts';
import { BlockDamagedError } from '../codec/varint.ts';
import { firstStated } from '../first-stated.ts';
import { keptOptions } from '../kept-options.ts';
import { curveOf } from '../pull-columns.ts';
import { channelsOf, extentOf, pullRowOf } from '../pull-reader.ts';
import { type Connection, RowDamagedError, oneRow, sqlInteger, sqlJson } from '../sql.ts';

/** A record of stress alone with more readings has no strength in a list until an evaluation of it is kept. */
const STRESS_READINGS_MAX = 1_000_000;

export interface ShownAsked {
  readonly pullId: number;
  /** From a display, where there is no record. */
  readonly isTyped: boolean;
  readonly ended: boolean;
  /** N; null where nothing was recorded of the force. */
  readonly peakForceN: number | null;
  /** The newest correction. */
  readonly specimenId: number;
  readonly specimen: SpecimenFile;
}

export interface ShownResults {
  readonly strengthMpa: number | null;
  readonly yieldMpa: number | null;
  readonly elongationPercent: number | null;
  readonly isInInches: boolean;
}

/**
 * Rm in MPa of the evaluation that stands, with the dimensions of today; without one the recorded peak over S0, or the
 * largest stress of a record that gives stress. Where the evaluation reads the record otherwise, what was recorded is not
 * what its readings say, and its own largest takes that place. Null where neither is known. Throws a RowDamagedError.
 */
export function shownResults(connection: Connection, asked: ShownAsked): ShownResults {
  const { pullId, ended, peakForceN, specimenId, specimen } = asked;
  const read = readSpecimen(specimen);
  const measured = read.ok ? read.specimen : null;
  const standing = standingOf(connection, pullId);
  const areaMm2 = areaOf(measured, standing?.options_json);
  const over = (forceN: number | null): number | null =>
    forceN === null || areaMm2 === null ? null : forceN / areaMm2;
  return {
    strengthMpa:
      evaluatedStrength(standing, specimenId, over) ??
      (standing !== null && isReadAnew(standing)
        ? largestReadAnew(standing, over)
        : (over(peakForceN) ?? (ended ? largestStress(connection, pullId) : null))),
    ...statedResults(connection, asked, { standing, measured }),
    isInInches: measured !== null && measuredInInches(measured),
  };
}

/**
 * The yield that rules compare, and A: of the evaluation that stands, where it was worked out by the sizes of today, else
 * as the pull was first worked out by these. An elongation that nobody worked out yet is what its halves give.
 */
function statedResults(
  connection: Connection,
  { pullId, isTyped, ended, specimenId }: ShownAsked,
  { standing, measured }: { readonly standing: Standing | null; readonly measured: Specimen | null },
): Pick<ShownResults, 'yieldMpa' | 'elongationPercent'> {
  const values =
    standing === null
      ? (firstStated(connection, pullId, specimenId)?.values ?? null)
      : standing.specimen_id === specimenId
        ? standing.values_json
        : null;
  if (values === null)
    return { yieldMpa: null, elongationPercent: ended && !isTyped ? ofHalves(measured) : null };
  return {
    yieldMpa:
      YIELD_SYMBOLS.map((symbol) => valueOf(values, symbol, 'stress')).find((one) => one !== null) ?? null,
    elongationPercent: values.find(({ symbol, unit }) => symbol === 'A' && unit === '%')?.value ?? null,
  };
}

/** A in %; null where the halves were not measured, or give none. */
function ofHalves(measured: Specimen | null): number | null {
  const found = elongationAfterFracture(measured);
  return found?.given === true ? found.result.value : null;
}

const standingRow = z.object({
  specimen_id: sqlInteger,
  options_json: keptOptions,
  values_json: sqlJson(keptValues),
});
type Standing = z.output<typeof standingRow>;

const standingOf = (connection: Connection, pullId: number): Standing | null =>
  oneRow(
    connection,
    standingRow,
    `SELECT specimen_id, options_json, values_json FROM evaluation
     WHERE pull_id = ? ORDER BY evaluation_id DESC LIMIT 1`,
    pullId,
  );

/**
 * Null where it gave none. Its values rest on the dimensions of then: where they were corrected since, its force is put
 * over the section of today, and a strength without a force is one of recorded stress, which no dimension changes.
 */
function evaluatedStrength(
  standing: Standing | null,
  specimenId: number,
  over: (forceN: number | null) => number | null,
): number | null {
  if (standing === null) return null;
  const { specimen_id, values_json: values } = standing;
  const strengthMpa = valueOf(values, 'Rm', 'stress');
  const forceN = valueOf(values, 'Fm', 'force');
  return specimen_id === specimenId || forceN === null ? strengthMpa : over(forceN);
}

const isReadAnew = ({ options_json: { lineFormat, importPlan } }: Standing): boolean =>
  lineFormat !== undefined || importPlan !== undefined;

/** Of lines or rows that were read again. */
function largestReadAnew(
  { values_json: values }: Standing,
  over: (forceN: number | null) => number | null,
): number | null {
  return over(valueOf(values, 'Fmax', 'force')) ?? valueOf(values, 'Rmax', 'stress');
}

function valueOf(values: readonly KeptValue[], asked: string, dimension: 'stress' | 'force'): number | null {
  const found = values.find(({ symbol, unit }) => symbol === asked && UNITS[unit].dimension === dimension);
  return found === undefined ? null : found.value * UNITS[found.unit].toCore.valueOf();
}

/** S0, mm²; by the section and the form of the evaluation that stands. */
function areaOf(specimen: Specimen | null, options: Standing['options_json'] | undefined): number | null {
  if (specimen === null) return null;
  const section = area(specimen.geometry, options);
  return section.ok ? section.area.areaMm2 : null;
}

/** MPa; null where no stress was recorded, more than is read for a list, or what can't be read any more. */
function largestStress(connection: Connection, pullId: number): number | null {
  try {
    const recordsStress = channelsOf(connection, pullRowOf(connection, pullId)).some(
      ({ quantity, peak }) => quantity === 'stress' && !peak,
    );
    if (!recordsStress || extentOf(connection, pullId).readings > STRESS_READINGS_MAX) return null;
    let largest = -Infinity;
    for (const stress of curveOf(connection, pullId).curve.stressMpa ?? [])
      if (stress > largest) largest = stress;
    return Number.isFinite(largest) ? largest : null;
  } catch (error) {
    // The check tells of damage; a pull that is damaged is found all the same.
    if (error instanceof BlockDamagedError || error instanceof RowDamagedError) return null;
    throw error;
  }
}
