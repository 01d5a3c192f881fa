/** The register of instruments: rows are only added, a correction names the one that it supersedes, and why. */
import { z } from 'zod';
import {
  CALIBRATIONS_PER_INSTRUMENT_MAX,
  INSTRUMENTS_MAX,
  type InstrumentLine,
  type KeptCalibration,
  type KeptInstrument,
} from '../contract/instrument-requests.ts';
import {
  CALIBRATION_STATES,
  type CalibrationForm,
  calibrationFaults,
  calibrationForm,
  calibrationOn,
  calibrationState,
  daysBetween,
} from '../instruments/calibration.ts';
import { type InstrumentForm, KIND_WORDS, instrumentForm } from '../instruments/instrument.ts';
import type { ChosenInstrument } from '../instruments/pull-instruments.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { checkReason } from './correction-reason.ts';
import { appendAudit } from './audit.ts';
import { type Connection, allRows, countOf, insert, sqlInteger, sqlJson } from './sql.ts';

/** Pulls named with an instrument; there may be thousands. */
const PULLS_SHOWN_MAX = 100;

export interface SaveInstrument {
  readonly form: InstrumentForm;
  readonly supersedes?: number | undefined;
  readonly retired?: boolean | undefined;
  readonly reason?: string | undefined;
  readonly by?: string | undefined;
}

/** Its number. Throws an ArchiveRefusal where the name is another's, or a correction is of what stands no more or lacks its reason. */
export function saveInstrument(connection: Connection, save: SaveInstrument, wallMs: number): number {
  const { form, supersedes, retired = false, reason, by } = save;
  return connection
    .transaction(() => {
      const all = keptInstruments(connection);
      const before = supersedes === undefined ? null : correctedBy(all, supersedes, reason);
      checkForm(all, save, before);
      const instrumentId =
        before?.instrumentId ?? insert(connection, 'instrument', { begun_wall_ms: wallMs });
      const statementId = insert(connection, 'instrument_statement', {
        instrument_id: instrumentId,
        kind: form.kind,
        name: form.name,
        form_json: JSON.stringify(form),
        retired: retired ? 1 : 0,
        wall_ms: wallMs,
        said_by: by ?? null,
        supersedes: supersedes ?? null,
        reason: supersedes === undefined ? null : (reason ?? null),
      });
      appendAudit(connection, wallMs, {
        what:
          before === null ? 'instrument entered' : retired ? 'instrument retired' : 'instrument corrected',
        subject: 'instrument',
        subjectId: instrumentId,
        rows: [
          ...(before === null ? [{ table: 'instrument', id: instrumentId } as const] : []),
          { table: 'instrument_statement', id: statementId },
        ],
        detail: { form, retired, supersedes: supersedes ?? null, reason: reason ?? null, by: by ?? null },
      });
      return instrumentId;
    })
    .immediate();
}

function correctedBy(
  all: readonly KeptInstrument[],
  supersedes: number,
  reason: string | undefined,
): KeptInstrument {
  const found = all.find(({ statementId }) => statementId === supersedes);
  if (found === undefined)
    throw new ArchiveRefusal(
      'already-superseded',
      `Entry ${supersedes} of an instrument is not there or was corrected meanwhile; look at the instrument again.`,
      'supersedes',
    );
  checkReason(reason);
  return found;
}

function checkForm(
  all: readonly KeptInstrument[],
  { form, retired = false }: SaveInstrument,
  before: KeptInstrument | null,
): void {
  if (before === null && all.length >= INSTRUMENTS_MAX)
    throw new ArchiveRefusal(
      'register-full',
      `The register holds at most ${String(INSTRUMENTS_MAX)} instruments; nothing was entered.`,
    );
  if (before !== null && before.form.kind !== form.kind)
    throw new ArchiveRefusal(
      'kind-changed',
      `${before.form.name} is a ${KIND_WORDS[before.form.kind]} and stays one; enter the ${KIND_WORDS[form.kind]} as another instrument.`,
      'form.kind',
    );
  const other = all.find(
    (one) =>
      one.instrumentId !== before?.instrumentId &&
      !one.retired &&
      one.form.kind === form.kind &&
      folded(one.form.name) === folded(form.name),
  );
  if (other !== undefined && !retired)
    throw new ArchiveRefusal(
      'name-taken',
      `There is another ${KIND_WORDS[form.kind]} ${form.name} in use here; give this one another name.`,
      'form.name',
    );
}

const folded = (text: string): string => text.normalize('NFKC').trim().toLocaleLowerCase('en');

export interface KeepCalibration {
  readonly instrumentId: number;
  readonly form: CalibrationForm;
  readonly supersedes?: number | undefined;
  readonly reason?: string | undefined;
  readonly by?: string | undefined;
  /** Local day on which it is entered. */
  readonly today: string;
}

/** Its number. Throws an ArchiveRefusal that names the field. */
export function keepCalibration(connection: Connection, keep: KeepCalibration, wallMs: number): number {
  const { instrumentId, form, supersedes, reason, by, today } = keep;
  return connection
    .transaction(() => {
      const { form: instrument } = instrumentOf(connection, instrumentId);
      const kept = calibrationsOf(connection, instrumentId);
      checkCalibration(keep, kept);
      const [fault] = calibrationFaults(instrument.kind, form);
      if (fault !== undefined)
        throw new ArchiveRefusal(
          'calibration-wrong',
          `${fault.sentence}.`.replace(/\.\.$/, '.'),
          `form.${fault.field}`,
        );
      if (form.calibratedOn > today)
        throw new ArchiveRefusal(
          'calibrated-tomorrow',
          `The calibration is dated ${form.calibratedOn}, which lies after today (${today}); correct the day.`,
          'form.calibratedOn',
        );
      const calibrationId = insert(connection, 'calibration', {
        instrument_id: instrumentId,
        certificate_number: form.certificateNumber,
        calibrated_on: form.calibratedOn,
        due_on: form.dueOn,
        form_json: JSON.stringify(form),
        wall_ms: wallMs,
        said_by: by ?? null,
        supersedes: supersedes ?? null,
        reason: supersedes === undefined ? null : (reason ?? null),
      });
      appendAudit(connection, wallMs, {
        what: supersedes === undefined ? 'calibration entered' : 'calibration corrected',
        subject: 'calibration',
        subjectId: calibrationId,
        detail: {
          instrumentId,
          form,
          supersedes: supersedes ?? null,
          reason: reason ?? null,
          by: by ?? null,
        },
      });
      return calibrationId;
    })
    .immediate();
}

function checkCalibration(
  { form, supersedes, reason }: KeepCalibration,
  kept: readonly KeptCalibration[],
): void {
  if (kept.length >= CALIBRATIONS_PER_INSTRUMENT_MAX)
    throw new ArchiveRefusal(
      'calibrations-full',
      `An instrument holds at most ${String(CALIBRATIONS_PER_INSTRUMENT_MAX)} calibrations; nothing was entered.`,
      'instrumentId',
    );
  const standing = kept.filter(({ supersededBy }) => supersededBy === null);
  if (supersedes !== undefined) {
    if (!standing.some(({ calibrationId }) => calibrationId === supersedes))
      throw new ArchiveRefusal(
        'already-superseded',
        `Calibration ${supersedes} is none of this instrument or was corrected meanwhile; look at the instrument again.`,
        'supersedes',
      );
    checkReason(reason);
  }
  const twice = standing.find(
    (one) => one.calibrationId !== supersedes && one.form.certificateNumber === form.certificateNumber,
  );
  if (twice !== undefined)
    throw new ArchiveRefusal(
      'certificate-twice',
      `Certificate ${form.certificateNumber} is entered already (calibration ${twice.calibrationId}); correct that one instead.`,
      'form.certificateNumber',
    );
}

const instrumentRow = z
  .object({
    instrument_id: sqlInteger,
    instrument_statement_id: sqlInteger,
    form_json: sqlJson(instrumentForm),
    retired: sqlInteger,
    wall_ms: sqlInteger,
    said_by: z.string().nullable(),
    reason: z.string().nullable(),
  })
  .transform((row): KeptInstrument => ({
    instrumentId: row.instrument_id,
    statementId: row.instrument_statement_id,
    form: row.form_json,
    retired: row.retired === 1,
    keptWallMs: row.wall_ms,
    by: row.said_by,
    reason: row.reason,
  }));

/** As they stand now, in the order in which they were entered. */
function keptInstruments(connection: Connection): KeptInstrument[] {
  return allRows(
    connection,
    instrumentRow,
    `SELECT * FROM instrument_statement s
     WHERE NOT EXISTS (SELECT 1 FROM instrument_statement later WHERE later.supersedes = s.instrument_statement_id)
     ORDER BY instrument_id`,
  );
}

/** Throws an ArchiveRefusal where there is none. */
function instrumentOf(connection: Connection, instrumentId: number): KeptInstrument {
  const found = keptInstruments(connection).find((one) => one.instrumentId === instrumentId);
  if (found === undefined)
    throw new ArchiveRefusal(
      'no-such-instrument',
      `There is no instrument ${String(instrumentId)} in this archive; look at the register.`,
      'instrumentId',
    );
  return found;
}

const calibrationRow = z
  .object({
    calibration_id: sqlInteger,
    form_json: sqlJson(calibrationForm),
    wall_ms: sqlInteger,
    said_by: z.string().nullable(),
    supersedes: sqlInteger.nullable(),
    superseded_by: sqlInteger.nullable(),
    reason: z.string().nullable(),
  })
  .transform((row): KeptCalibration => ({
    calibrationId: row.calibration_id,
    form: row.form_json,
    keptWallMs: row.wall_ms,
    by: row.said_by,
    supersedes: row.supersedes,
    supersededBy: row.superseded_by,
    reason: row.reason,
  }));

/** All of an instrument in the order in which they were entered, superseded ones too. */
export function calibrationsOf(connection: Connection, instrumentId: number): KeptCalibration[] {
  return allRows(
    connection,
    calibrationRow,
    `SELECT c.*, later.calibration_id AS superseded_by
     FROM calibration c LEFT JOIN calibration later ON later.supersedes = c.calibration_id
     WHERE c.instrument_id = ? ORDER BY c.calibration_id`,
    instrumentId,
  );
}

const standingCalibrations = (connection: Connection, instrumentId: number): KeptCalibration[] =>
  calibrationsOf(connection, instrumentId).filter(({ supersededBy }) => supersededBy === null);

/** The register as it stands, each instrument with the calibration that counts on a day. */
export function listInstruments(connection: Connection, on: string): InstrumentLine[] {
  return keptInstruments(connection).map((kept) => lineOf(connection, kept, on));
}

function lineOf(connection: Connection, kept: KeptInstrument, on: string): InstrumentLine {
  const standing = standingCalibrations(connection, kept.instrumentId);
  const found = calibrationOn(
    standing.map(({ calibrationId, form }) => ({ calibrationId, ...datesOf(form) })),
    on,
  );
  const calibration = standing.find(({ calibrationId }) => calibrationId === found?.calibrationId);
  return {
    ...kept,
    calibration: calibration === undefined ? null : withoutWorksheet(calibration),
    state: calibrationState(found, on),
    daysLeft: found === null ? null : daysBetween(on, found.dueOn),
  };
}

const datesOf = ({ calibratedOn, dueOn }: CalibrationForm) => ({ calibratedOn, dueOn });

/** A list of all instruments is to fit one answer. */
function withoutWorksheet({ form, ...kept }: KeptCalibration): KeptCalibration {
  const { worksheet, extensionSheet, ...said } = form;
  return worksheet === undefined && extensionSheet === undefined
    ? { ...kept, form }
    : { ...kept, form: said };
}

export interface InstrumentHistory {
  readonly instrument: InstrumentLine;
  readonly calibrations: KeptCalibration[];
  readonly pulls: { pullId: number; state: (typeof CALIBRATION_STATES)[number] }[];
  readonly pullCount: number;
}

const pullOfInstrument = z
  .object({ pull_id: sqlInteger, state: z.enum(CALIBRATION_STATES) })
  .transform(({ pull_id, state }) => ({ pullId: pull_id, state }));

export function instrumentHistory(
  connection: Connection,
  instrumentId: number,
  on: string,
): InstrumentHistory {
  return {
    instrument: lineOf(connection, instrumentOf(connection, instrumentId), on),
    calibrations: calibrationsOf(connection, instrumentId),
    pulls: allRows(
      connection,
      pullOfInstrument,
      'SELECT pull_id, state FROM pull_instrument WHERE instrument_id = ? ORDER BY pull_id DESC LIMIT ?',
      instrumentId,
      PULLS_SHOWN_MAX,
    ),
    pullCount: countOf(
      connection,
      'SELECT count(*) AS n FROM pull_instrument WHERE instrument_id = ?',
      instrumentId,
    ),
  };
}

/** Those that a pull is to be made with. Throws an ArchiveRefusal for one that is unknown or retired. */
export function chosenInstruments(
  connection: Connection,
  instrumentIds: readonly number[],
): ChosenInstrument[] {
  return [...new Set(instrumentIds)].map((instrumentId) => {
    const { form, retired } = instrumentOf(connection, instrumentId);
    if (retired)
      throw new ArchiveRefusal(
        'instrument-retired',
        `The ${KIND_WORDS[form.kind]} ${form.name} is retired; choose one that is in use.`,
        'instruments',
      );
    const calibrations = standingCalibrations(connection, instrumentId);
    return {
      instrumentId,
      form,
      calibrations: calibrations.map(({ calibrationId, form: said }) => ({ calibrationId, form: said })),
    };
  });
}
