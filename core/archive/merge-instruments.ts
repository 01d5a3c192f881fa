/**
 * The instruments of a pull that is taken from another archive: the same one of the register here (kind, name and serial
 * number), or the one from there with all that was said of it and its calibrations, so that an instrument that turns out
 * to have been off leads to this pull too.
 */
import { z } from 'zod';
import { type PullInstruments, pullInstruments } from '../instruments/pull-instruments.ts';
import { oneRow, sqlInteger, sqlJson } from './sql.ts';
import type { Row, TakenRows } from './taken-rows.ts';

export function takeInstruments(taken: TakenRows, there: number, here: number): void {
  const [own] = taken.rowsThere('SELECT * FROM pull_instruments WHERE pull_id = ?', there);
  if (own === undefined) return;
  const links = taken.rowsThere('SELECT * FROM pull_instrument WHERE pull_id = ?', there).map((link) => {
    const instrumentThere = Number(link.instrument_id);
    const instrument = instrumentHere(taken, instrumentThere);
    return {
      link,
      instrumentThere,
      instrument,
      calibration:
        link.calibration_id === null ? null : calibrationHere(taken, Number(link.calibration_id), instrument),
    };
  });
  taken.put('pull_instruments', own, {
    pull_id: here,
    // What was kept stays as it was but for the numbers, which are those of this register.
    instruments_json: JSON.stringify(
      renumbered(
        sqlJson(pullInstruments).parse(own.instruments_json),
        new Map(links.map((one) => [one.instrumentThere, one])),
      ),
    ),
  });
  for (const { link, instrument, calibration } of links)
    taken.put('pull_instrument', link, {
      pull_instrument_id: null,
      pull_id: here,
      instrument_id: instrument,
      calibration_id: calibration,
    });
}

function renumbered(
  kept: PullInstruments,
  links: ReadonlyMap<number, { readonly instrument: number; readonly calibration: number | null }>,
): PullInstruments {
  return {
    ...kept,
    used: kept.used.map((used) => {
      const link = links.get(used.instrumentId);
      return link === undefined
        ? used
        : { ...used, instrumentId: link.instrument, calibrationId: link.calibration };
    }),
    concerns: kept.concerns.map((one) => ({
      ...one,
      instrumentId:
        one.instrumentId === null ? null : (links.get(one.instrumentId)?.instrument ?? one.instrumentId),
    })),
  };
}

const identity = z.object({ kind: z.string(), name: z.string(), serial: z.string().nullable() });
const NEWEST = `FROM instrument_statement s WHERE NOT EXISTS
  (SELECT 1 FROM instrument_statement later WHERE later.supersedes = s.instrument_statement_id)`;
const IDENTITY = `SELECT s.kind, s.name, s.form_json ->> '$.serialNumber' AS serial ${NEWEST} AND s.instrument_id = ?`;

/** The same instrument of the register here; taken along with all that was said of it where there is none. */
function instrumentHere(taken: TakenRows, there: number): number {
  const [found] = taken.rowsThere(IDENTITY, there);
  const its = identity.parse(found);
  const same = oneRow(
    taken.here,
    z.object({ instrument_id: sqlInteger }),
    `SELECT s.instrument_id ${NEWEST} AND s.kind = ? AND s.name = ? AND s.form_json ->> '$.serialNumber' IS ?
     ORDER BY s.instrument_id LIMIT 1`,
    its.kind,
    its.name,
    its.serial,
  );
  if (same !== null) return same.instrument_id;
  const [own] = taken.rowsThere('SELECT * FROM instrument WHERE instrument_id = ?', there);
  if (own === undefined) throw new Error(`instrument ${String(there)} is not there`);
  const here = taken.put('instrument', own, { instrument_id: null });
  chained(taken, 'instrument_statement', there, here);
  chained(taken, 'calibration', there, here);
  return here;
}

/** The same calibration (certificate and dates) of the instrument here; taken along where it is not on record. */
function calibrationHere(taken: TakenRows, there: number, instrument: number): number {
  const [own] = taken.rowsThere('SELECT * FROM calibration WHERE calibration_id = ?', there);
  if (own === undefined) throw new Error(`calibration ${String(there)} is not there`);
  const same = oneRow(
    taken.here,
    z.object({ calibration_id: sqlInteger }),
    `SELECT calibration_id FROM calibration
     WHERE instrument_id = ? AND certificate_number = ? AND calibrated_on = ? AND due_on = ?
     ORDER BY calibration_id DESC LIMIT 1`,
    instrument,
    own.certificate_number ?? null,
    own.calibrated_on ?? null,
    own.due_on ?? null,
  );
  return (
    same?.calibration_id ??
    taken.put('calibration', own, {
      calibration_id: null,
      instrument_id: instrument,
      supersedes: null,
      reason: null,
    })
  );
}

/** Rows of an instrument, each with the one that it supersedes. */
function chained(
  taken: TakenRows,
  table: 'instrument_statement' | 'calibration',
  there: number,
  here: number,
): void {
  const key = `${table}_id`;
  const ids = new Map<number, number>();
  for (const own of taken.rowsThere(
    `SELECT * FROM ${table} WHERE instrument_id = ? ORDER BY ${key}`,
    there,
  )) {
    const changed: Row = {
      [key]: null,
      instrument_id: here,
      supersedes: own.supersedes === null ? null : (ids.get(Number(own.supersedes)) ?? null),
    };
    ids.set(Number(own[key]), taken.put(table, own, changed));
  }
}
