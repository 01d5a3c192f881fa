/**
 * The rows of the archive against its audit chain: every row is named by an entry and is what it was then, every
 * entry's row is there. A last entry that was taken out shows by the row that nobody names.
 */
import { z } from 'zod';
import { ArchiveFault } from './archive-fault.ts';
import { measurementsOf } from './specimen-store.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { identityText, ownIdentities } from './own-identities.ts';
import { ROWS_PER_STEP, type Steps, pages } from './in-steps.ts';
import { type Witnessed, WITNESSED, exists, rowHash, rowIds, rowsUpToInSteps } from './row-hash.ts';
import { type Connection, allRows, countOf, sqlInteger, sqlJson } from './sql.ts';

const TOLD_MAX = 10;

const entry = z.object({ audit_id: sqlInteger, subject: z.string(), detail_json: sqlJson(z.unknown()) });
const witness = z.object({ rows: z.record(z.string(), z.string()) });
const copied = z.object({ ownIdentity: z.string() });
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

/** The last rows that a check looks at: what is kept while it goes on is the next one's. */
export interface LastRows {
  readonly audit: number;
  readonly of: ReadonlyMap<Witnessed, number>;
}

/** Those that there are now, in one go: a statement and its entry are kept together. */
export function lastRows(connection: Connection): LastRows {
  const last = (table: string): number =>
    countOf(connection, `SELECT coalesce(max(rowid), 0) AS n FROM ${table}`);
  return {
    audit: last('audit'),
    of: new Map(WITNESSED.filter((table) => exists(connection, table)).map((table) => [table, last(table)])),
  };
}

export function* checkStatements(connection: Connection, until: LastRows): Steps<StatementsVerdict> {
  const hashes = new Map<string, string>();
  const forms: z.output<typeof formed>[] = [];
  const wentOn: string[] = [];
  const entries = { table: 'audit', key: 'audit_id', last: until.audit } as const;
  for (const page of pages(connection, entry, { ...entries, idOf: (row) => row.audit_id })) {
    for (const { subject, detail_json } of page) {
      const read = witness.safeParse(detail_json);
      if (read.success) for (const [name, hash] of Object.entries(read.data.rows)) hashes.set(name, hash);
      if (subject !== 'archive') continue;
      const form = formed.safeParse(detail_json);
      if (form.success) forms.push(form.data);
      const copy = copied.safeParse(detail_json);
      if (copy.success) wentOn.push(copy.data.ownIdentity);
    }
    yield;
  }
  const found: string[] = [];
  const form = z.number().parse(connection.pragma('user_version', { simple: true }));
  if (forms.at(-1)?.toForm !== form)
    found.push(`no entry of the audit chain tells how the archive came to its form ${String(form)}`);
  if (identitiesTold(connection) !== wentOn.join())
    found.push('the identities under which it recorded are not those that the audit chain tells');
  let checked = 0;
  // A table that a later form brings is looked at from then on.
  for (const [table, lastNow] of until.of) {
    const last = Math.max(0, ...forms.map((one) => one.rowsBefore?.[table]?.last ?? 0));
    for (const { rowsBefore } of forms) {
      const then = rowsBefore?.[table];
      if (then === undefined) continue;
      const now = yield* inPages(rowsUpToInSteps(connection, table, then.last));
      if (now.sha256 !== then.sha256)
        found.push(
          `rows of ${table} up to ${String(then.last)} are not what they were when the archive was brought to a newer form`,
        );
    }
    for (const id of rowIds(connection, table)) {
      if (id > lastNow) break;
      if (++checked % ROWS_PER_STEP === 0) yield;
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
  found.push(...(yield* strayMeasurements(connection, until.of.get('specimen') ?? 0)));
  return {
    checked,
    found:
      found.length > TOLD_MAX
        ? [...found.slice(0, TOLD_MAX), `and ${String(found.length - TOLD_MAX)} more`]
        : found,
  };
}

/** As the audit chain tells them; null where they can't be read. */
function identitiesTold(connection: Connection): string | null {
  try {
    return ownIdentities(connection).slice(1).map(identityText).join();
  } catch (error) {
    if (error instanceof ArchiveFault) return null;
    throw error;
  }
}

export const rowName = (table: Witnessed, id: number): string => `${table} ${String(id)}`;

/** Fewer steps, each of many. */
function* inPages<T>(steps: Steps<T>): Steps<T> {
  for (let n = 1; ; n++) {
    const step = steps.next();
    if (step.done === true) return step.value;
    if (n % ROWS_PER_STEP === 0) yield;
  }
}

/** Measurements stand a second time in rows of their own, to be searched. */
function* strayMeasurements(connection: Connection, last: number): Steps<string[]> {
  const found: string[] = [];
  const lines = (list: readonly { field: string; place: number; text: string }[]): string =>
    list
      .map(({ field, place, text }) => JSON.stringify([field, place, text]))
      .sort()
      .join('\n');
  const specimens = { table: 'specimen', key: 'specimen_id', last } as const;
  for (const page of pages(connection, specimenRow, { ...specimens, idOf: (row) => row.specimen_id })) {
    for (const { specimen_id: id, form_json } of page) {
      const rows = allRows(
        connection,
        z.object({ field: z.string(), place: sqlInteger, text: z.string() }),
        'SELECT field, place, text FROM measurement WHERE specimen_id = ?',
        id,
      );
      if (lines(rows) !== lines(measurementsOf(form_json)))
        found.push(`measurements of specimen ${String(id)} differ from its form`);
    }
    yield;
  }
  return found;
}

const specimenRow = z.object({ specimen_id: sqlInteger, form_json: sqlJson(specimenFile) });
