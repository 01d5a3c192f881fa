/** Kept specimens, as they are read: by number, and in pages. */
import { z } from 'zod';
import type { KeptSpecimen } from '../contract/specimen-requests.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { ArchiveRefusal } from './archive-fault.ts';
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
): { items: KeptSpecimen[]; nextCursor: number | null } {
  const items = allRows(
    connection,
    specimenRow,
    `${SELECT_SPECIMEN}
     WHERE later.specimen_id IS NULL AND s.specimen_id < ? AND s.name LIKE ? ESCAPE '\\'
     ORDER BY s.specimen_id DESC LIMIT ?`,
    cursor ?? Number.MAX_SAFE_INTEGER,
    likePattern(search),
    limit,
  );
  return { items, nextCursor: items.length < limit ? null : (items.at(-1)?.specimenId ?? null) };
}

/** Finds the text anywhere; the pattern's own signs stand for themselves. */
export function likePattern(search: string | undefined): string {
  return search === undefined ? '%' : `%${search.replace(/[\\%_]/g, (sign) => `\\${sign}`)}%`;
}
