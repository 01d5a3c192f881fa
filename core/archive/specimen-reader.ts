/** Kept specimens, as they are read: by number, and in pages. */
import { z } from 'zod';
import type { KeptSpecimen, ListedSpecimen } from '../contract/specimen-requests.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { withSpecimenChain } from './specimen-chain.ts';
import { type Connection, allRows, oneRow, sqlInteger, sqlJson } from './sql.ts';

const specimenRow = z
  .object({
    specimen_id: sqlInteger,
    form_json: sqlJson(specimenFile),
    saved_wall_ms: sqlInteger,
    saved_by: z.string().nullable(),
    supersedes: sqlInteger.nullable(),
    reason: z.string().nullable(),
    superseded_by: sqlInteger.nullable(),
  })
  .transform((row): KeptSpecimen => ({
    specimenId: row.specimen_id,
    specimen: row.form_json,
    savedWallMs: row.saved_wall_ms,
    by: row.saved_by,
    supersedes: row.supersedes,
    supersededBy: row.superseded_by,
    reason: row.reason,
  }));

const SELECT_SPECIMEN = `
SELECT s.*, later.specimen_id AS superseded_by
FROM specimen s LEFT JOIN specimen later ON later.supersedes = s.specimen_id`;

export function getSpecimen(connection: Connection, specimenId: number): KeptSpecimen {
  const row = oneRow(connection, specimenRow, `${SELECT_SPECIMEN} WHERE s.specimen_id = ?`, specimenId);
  if (row === null)
    throw new ArchiveRefusal(
      'no-such-specimen',
      `There is no specimen ${specimenId} in this archive.`,
      'specimenId',
    );
  return row;
}

export interface PageRequest {
  readonly cursor?: number | undefined;
  readonly limit: number;
  readonly search?: string | undefined;
}

/** Newest first, superseded ones left out. */
export function listSpecimens(
  connection: Connection,
  { cursor, limit, search }: PageRequest,
): { items: ListedSpecimen[]; nextCursor: number | null } {
  const kept = allRows(
    connection,
    specimenRow,
    `${SELECT_SPECIMEN}
     WHERE later.specimen_id IS NULL AND s.specimen_id < ? AND s.name LIKE ? ESCAPE '\\'
     ORDER BY s.specimen_id DESC LIMIT ?`,
    cursor ?? Number.MAX_SAFE_INTEGER,
    likePattern(search),
    limit,
  );
  const items = kept.map((one) => ({ ...one, ...pullsOf(connection, one.specimenId) }));
  return { items, nextCursor: items.length < limit ? null : (items.at(-1)?.specimenId ?? null) };
}

const pullCounts = z.object({ pulls: sqlInteger, voidPulls: sqlInteger });

/** Of the specimen in any of its corrections; `pulls` counts those that are not void. */
function pullsOf(connection: Connection, specimenId: number): z.infer<typeof pullCounts> {
  // A count is one row, whatever there is.
  const counted = oneRow(
    connection,
    pullCounts,
    `${withSpecimenChain('?')}
     SELECT count(*) - count(v.pull_id) AS pulls, count(v.pull_id) AS voidPulls
     FROM chain CROSS JOIN pull p USING (specimen_id) LEFT JOIN pull_void v USING (pull_id)`,
    specimenId,
  );
  return counted ?? { pulls: 0, voidPulls: 0 };
}

/** Finds the text anywhere; the pattern's own signs stand for themselves. */
export function likePattern(search: string | undefined): string {
  return search === undefined ? '%' : `%${search.replace(/[\\%_]/g, (sign) => `\\${sign}`)}%`;
}
