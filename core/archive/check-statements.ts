/**
 * The rows of the archive against its audit chain: every row is named by an entry and is what it was then, every
 * entry's row is there. A last entry that was taken out shows by the row that nobody names.
 */
import { z } from 'zod';
import { measurementsOf } from './specimen-store.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { type Witnessed, WITNESSED, exists, rowHash, rowIds, rowsUpTo } from './row-hash.ts';
import { type Connection, allRows, eachRow, sqlInteger, sqlJson } from './sql.ts';

const TOLD_MAX = 10;

const entry = z.object({ audit_id: sqlInteger, subject: z.string(), detail_json: sqlJson(z.unknown()) });
const witness = z.object({ rows: z.record(z.string(), z.string()) });
const formed = z.object({
  fromForm: z.int(),
  toForm: z.int(),
  rowsBefore: z
    .partialRecord(z.enum(WITNESSED), z.object({ last: z.int(), count: z.int(), sha256: z.string() }))
    .optional(),
});

export interface StatementsVerdict {
  readonly checked: number;
  /** What was found, each in a few words; empty where all is sound. */
  readonly found: readonly string[];
}

export function checkStatements(connection: Connection): StatementsVerdict {
  const hashes = new Map<string, string>();
  const forms: z.output<typeof formed>[] = [];
  for (const { subject, detail_json } of eachRow(
    connection,
    entry,
    'SELECT audit_id, subject, detail_json FROM audit ORDER BY audit_id',
  )) {
    const read = witness.safeParse(detail_json);
    if (read.success) for (const [name, hash] of Object.entries(read.data.rows)) hashes.set(name, hash);
    const form = subject === 'archive' ? formed.safeParse(detail_json) : null;
    if (form?.success === true) forms.push(form.data);
  }
  const found: string[] = [];
  const form = z.number().parse(connection.pragma('user_version', { simple: true }));
  if (forms.at(-1)?.toForm !== form)
    found.push(`no entry of the audit chain tells how the archive came to its form ${String(form)}`);
  let checked = 0;
  for (const table of WITNESSED) {
    // A table that a later form brings is looked at from then on.
    if (!exists(connection, table)) continue;
    const last = Math.max(0, ...forms.map((one) => one.rowsBefore?.[table]?.last ?? 0));
    for (const { rowsBefore } of forms) {
      const then = rowsBefore?.[table];
      if (then === undefined) continue;
      const now = rowsUpTo(connection, table, then.last);
      if (now.sha256 !== then.sha256)
        found.push(
          `rows of ${table} up to ${String(then.last)} are not what they were when the archive was brought to a newer form`,
        );
    }
    for (const id of rowIds(connection, table)) {
      checked++;
      const name = rowName(table, id);
      const hash = hashes.get(name);
      hashes.delete(name);
      if (hash === undefined) {
        if (id > last) found.push(`${name} is named by no entry of the audit chain`);
      } else if (hash !== rowHash(connection, { table, id }))
        found.push(`${name} is not what it was when it was kept`);
    }
  }
  for (const name of hashes.keys()) found.push(`${name} is named by the audit chain and missing`);
  found.push(...strayMeasurements(connection));
  return {
    checked,
    found:
      found.length > TOLD_MAX
        ? [...found.slice(0, TOLD_MAX), `and ${String(found.length - TOLD_MAX)} more`]
        : found,
  };
}

export const rowName = (table: Witnessed, id: number): string => `${table} ${String(id)}`;

/** Measurements stand a second time in rows of their own, to be searched. */
function strayMeasurements(connection: Connection): string[] {
  const found: string[] = [];
  const lines = (list: readonly { field: string; place: number; text: string }[]): string =>
    list
      .map(({ field, place, text }) => JSON.stringify([field, place, text]))
      .sort()
      .join('\n');
  for (const { specimen_id: id, form_json } of eachRow(
    connection,
    z.object({ specimen_id: sqlInteger, form_json: sqlJson(specimenFile) }),
    'SELECT specimen_id, form_json FROM specimen',
  )) {
    const rows = allRows(
      connection,
      z.object({ field: z.string(), place: sqlInteger, text: z.string() }),
      'SELECT field, place, text FROM measurement WHERE specimen_id = ?',
      id,
    );
    if (lines(rows) !== lines(measurementsOf(form_json)))
      found.push(`measurements of specimen ${String(id)} differ from its form`);
  }
  return found;
}
