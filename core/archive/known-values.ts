/** Values of pulls that this very program has worked out before, as they stand: what evaluating them once more would give. */
import { z } from 'zod';
import { type KeptValue, keptValues } from '../contract/evaluation-requests.ts';
import { METHOD_VERSION } from '../results/evaluation.ts';
import { firstStated } from './first-stated.ts';
import { specimenChain } from './specimen-chain.ts';
import { type Connection, allRows, oneRow, sqlInteger, sqlJson } from './sql.ts';

export interface KnownValues {
  readonly pullId: number;
  readonly values: readonly KeptValue[];
}

const standingRow = z.object({
  specimen_id: sqlInteger,
  values_json: sqlJson(keptValues),
  method_version: z.string(),
  program_version: z.string(),
});

/**
 * Of the evaluation that stands, else as first worked out, each only by the sizes of today, by this method and this
 * version; a pull of which nothing of the kind is noted is left out.
 */
export function knownValues(
  connection: Connection,
  pullIds: readonly number[],
  programVersion: string,
): KnownValues[] {
  return pullIds.flatMap((pullId) => {
    const specimenId = newestSpecimen(connection, pullId);
    if (specimenId === null) return [];
    const standing = oneRow(
      connection,
      standingRow,
      `SELECT specimen_id, values_json, method_version, program_version FROM evaluation
       WHERE pull_id = ? ORDER BY evaluation_id DESC LIMIT 1`,
      pullId,
    );
    const first = standing === null ? firstStated(connection, pullId, specimenId) : null;
    const known =
      standing === null
        ? first
        : standing.specimen_id === specimenId
          ? {
              values: standing.values_json,
              methodVersion: standing.method_version,
              programVersion: standing.program_version,
            }
          : null;
    return known?.methodVersion === METHOD_VERSION && known.programVersion === programVersion
      ? [{ pullId, values: known.values }]
      : [];
  });
}

const idRow = z.object({ specimen_id: sqlInteger });

function newestSpecimen(connection: Connection, pullId: number): number | null {
  const pull = oneRow(connection, idRow, 'SELECT specimen_id FROM pull WHERE pull_id = ?', pullId);
  if (pull === null) return null;
  return (
    allRows(connection, idRow, specimenChain('s.specimen_id'), pull.specimen_id).at(-1)?.specimen_id ?? null
  );
}
