/**
 * Notes what a pull was first worked out as (first-stated.ts), and takes such notes along into another archive. A row is
 * never changed; a corrected specimen gets one of its own. What the search shows of it is kept in step.
 */
import { z } from 'zod';
import type { KeptValue } from '../contract/evaluation-requests.ts';
import { hasStated, statedRow, storedStated } from './first-stated.ts';
import { mayWrite } from './let-write.ts';
import { openPullId } from './pull-store.ts';
import { statedAnew } from './search/stated-anew.ts';
import { type Connection, allRows, insert, sqlInteger } from './sql.ts';

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
  if (hasStated(connection) && statedRow(connection, pullId, specimenId) !== undefined) return false;
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
      statedAnew(connection, pullId);
    })
    .immediate();
  return true;
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
  if (!hasStated(from)) return;
  const stated = allRows(
    from,
    z.object({ specimen_id: sqlInteger }),
    'SELECT specimen_id FROM search_stated WHERE pull_id = ?',
    there,
  );
  let isNew = false;
  for (const { specimen_id } of stated) {
    const specimenId = specimenHere(specimen_id);
    const its = statedRow(from, there, specimen_id);
    // What can't be read says nothing there either.
    if (specimenId === null || !storedStated.safeParse(its).success) continue;
    if (hasStated(into) && statedRow(into, here, specimenId) !== undefined) continue;
    into.exec(TABLE);
    insert(into, 'search_stated', { ...takenRow.parse(its), pull_id: here, specimen_id: specimenId });
    isNew = true;
  }
  if (isNew) statedAnew(into, here);
}
