/**
 * What a program first gave of a pull as it stands, so that a later program can be compared with it. A note beside the
 * record: no form of the archive has its table, the audit chain and exports do not know it, and nothing is made anew
 * of it; a check works it out once more and tells a difference, which is no damage.
 */
import { z } from 'zod';
import { type FirstStated, keptValues } from '../contract/evaluation-requests.ts';
import { type Connection, allRows, countOf, sqlInteger, sqlJson, statement } from './sql.ts';

export const storedStated = z
  .object({
    values_json: sqlJson(keptValues),
    method_version: z.string(),
    program_version: z.string(),
    stated_wall_ms: sqlInteger,
  })
  .transform((row): FirstStated => ({
    values: row.values_json,
    methodVersion: row.method_version,
    programVersion: row.program_version,
    statedWallMs: row.stated_wall_ms,
  }));

/** Null where nothing was, or what there is can't be read: nothing rests on it. */
export function firstStated(connection: Connection, pullId: number, specimenId: number): FirstStated | null {
  if (!hasStated(connection)) return null;
  const read = storedStated.safeParse(statedRow(connection, pullId, specimenId));
  return read.success ? read.data : null;
}

/** Pulls of which something was stated, with the correction of the specimen; of one pull where it is named. */
export function statedPulls(
  connection: Connection,
  pullId: number | undefined,
): { readonly pullId: number; readonly specimenId: number }[] {
  if (!hasStated(connection)) return [];
  return allRows(
    connection,
    z.object({ pull_id: sqlInteger, specimen_id: sqlInteger }),
    'SELECT pull_id, specimen_id FROM search_stated WHERE ? IS NULL OR pull_id = ? ORDER BY pull_id, specimen_id',
    pullId ?? null,
    pullId ?? null,
  ).map((row) => ({ pullId: row.pull_id, specimenId: row.specimen_id }));
}

export const statedRow = (connection: Connection, pullId: number, specimenId: number): unknown =>
  statement(connection, 'SELECT * FROM search_stated WHERE pull_id = ? AND specimen_id = ?').get(
    pullId,
    specimenId,
  );

/** The table is made when it is first needed. */
export const hasStated = (connection: Connection): boolean =>
  countOf(
    connection,
    "SELECT count(*) AS n FROM sqlite_schema WHERE type = 'table' AND name = 'search_stated'",
  ) === 1;
