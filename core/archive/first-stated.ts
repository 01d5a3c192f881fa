/**
 * What a program first gave of a pull as it stands, so that a later program can be compared with it. A note beside the
 * record: no form of the archive has its table, the audit chain and exports do not know it, and nothing is made anew
 * of it; a check works it out once more and tells a difference, which is no damage. A row is never changed; a corrected
 * specimen gets one of its own. A pull that is taken into another archive, by a merge or a split, takes its rows along.
 */
import { z } from 'zod';
import { type FirstStated, type KeptValue, keptValues } from '../contract/evaluation-requests.ts';
import { mayWrite } from './let-write.ts';
import { openPullId } from './pull-store.ts';
import { type Connection, allRows, countOf, insert, sqlInteger, sqlJson, statement } from './sql.ts';

const TABLE = `CREATE TABLE IF NOT EXISTS search_stated (
  pull_id INTEGER NOT NULL,
  -- The correction of its specimen that it was worked out by.
  specimen_id INTEGER NOT NULL,
  values_json TEXT NOT NULL,
  method_version TEXT NOT NULL,
  program_version TEXT NOT NULL,
  stated_wall_ms INTEGER NOT NULL,
  PRIMARY KEY (pull_id, specimen_id)
) STRICT, WITHOUT ROWID`;

export interface StatedNow {
  readonly pullId: number;
  readonly specimenId: number;
  readonly values: readonly KeptValue[];
  readonly methodVersion: string;
}

/** Whether it is kept now: not where something was stated before, a record is open, or the connection only reads. */
export function keepFirstStated(
  connection: Connection,
  { pullId, specimenId, values, methodVersion }: StatedNow,
  { wallMs, programVersion }: { readonly wallMs: number; readonly programVersion: string },
): boolean {
  if (!mayWrite(connection)) return false;
  if (isThere(connection) && rowOf(connection, pullId, specimenId) !== undefined) return false;
  if (openPullId(connection) !== null) return false;
  connection
    .transaction(() => {
      connection.exec(TABLE);
      insert(connection, 'search_stated', {
        pull_id: pullId,
        specimen_id: specimenId,
        values_json: JSON.stringify(values),
        method_version: methodVersion,
        program_version: programVersion,
        stated_wall_ms: wallMs,
      });
    })
    .immediate();
  return true;
}

const storedRow = z
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
  if (!isThere(connection)) return null;
  const read = storedRow.safeParse(rowOf(connection, pullId, specimenId));
  return read.success ? read.data : null;
}

/** Pulls of which something was stated, with the correction of the specimen; of one pull where it is named. */
export function statedPulls(
  connection: Connection,
  pullId: number | undefined,
): { readonly pullId: number; readonly specimenId: number }[] {
  if (!isThere(connection)) return [];
  return allRows(
    connection,
    z.object({ pull_id: sqlInteger, specimen_id: sqlInteger }),
    'SELECT pull_id, specimen_id FROM search_stated WHERE ? IS NULL OR pull_id = ? ORDER BY pull_id, specimen_id',
    pullId ?? null,
    pullId ?? null,
  ).map((row) => ({ pullId: row.pull_id, specimenId: row.specimen_id }));
}

const takenRow = z.object({
  specimen_id: sqlInteger,
  values_json: z.string(),
  method_version: z.string(),
  program_version: z.string(),
  stated_wall_ms: sqlInteger,
});

/**
 * What was first stated of a pull there, with its version and moment, where nothing was here. To be called inside the
 * transaction that takes the pull, or by itself for one that is here already.
 *
 * @param specimenHere the number here of a specimen there; null where it is not here
 */
export function takeFirstStated(
  from: Connection,
  into: Connection,
  { there, here }: { readonly there: number; readonly here: number },
  specimenHere: (specimenIdThere: number) => number | null,
): void {
  if (!isThere(from)) return;
  const stated = allRows(
    from,
    z.object({ specimen_id: sqlInteger }),
    'SELECT specimen_id FROM search_stated WHERE pull_id = ?',
    there,
  );
  for (const { specimen_id } of stated) {
    const specimenId = specimenHere(specimen_id);
    const its = rowOf(from, there, specimen_id);
    // What can't be read says nothing there either.
    if (specimenId === null || !storedRow.safeParse(its).success) continue;
    if (isThere(into) && rowOf(into, here, specimenId) !== undefined) continue;
    into.exec(TABLE);
    insert(into, 'search_stated', { ...takenRow.parse(its), pull_id: here, specimen_id: specimenId });
  }
}

const rowOf = (connection: Connection, pullId: number, specimenId: number): unknown =>
  statement(connection, 'SELECT * FROM search_stated WHERE pull_id = ? AND specimen_id = ?').get(
    pullId,
    specimenId,
  );

const isThere = (connection: Connection): boolean =>
  countOf(
    connection,
    "SELECT count(*) AS n FROM sqlite_schema WHERE type = 'table' AND name = 'search_stated'",
  ) === 1;
