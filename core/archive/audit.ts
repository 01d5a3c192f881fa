/**
 * The audit chain: one row for each statement kept, each carrying the hash of the one before, so that a row
 * that was changed, taken out or put in later by other means shows.
 */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import { keepInStep } from './search/keep-entries.ts';
import { type RowName, WITNESSED, rowHash } from './row-hash.ts';
import { type Steps, atOnce, pages } from './in-steps.ts';
import { type Connection, countOf, insert, oneRow, sqlBlob, sqlInteger } from './sql.ts';

export interface AuditEntry {
  readonly what: string;
  /** Table of the row that the entry speaks of. */
  readonly subject: string;
  readonly subjectId: number;
  readonly detail: object;
  /** Rows that the statement put in, whose hashes the entry carries; left out: the subject. */
  readonly rows?: readonly RowName[];
}

const HASH_BYTES = 32;
const NO_HASH = new Uint8Array(HASH_BYTES);

/** Adds to the chain. To be called inside the transaction that keeps the statement itself. */
export function appendAudit(connection: Connection, wallMs: number, entry: AuditEntry): void {
  const last = oneRow(
    connection,
    z.object({ hash: sqlBlob }),
    'SELECT hash FROM audit ORDER BY audit_id DESC LIMIT 1',
  );
  const row = {
    wall_ms: wallMs,
    what: entry.what,
    subject: entry.subject,
    subject_id: entry.subjectId,
    detail_json: JSON.stringify({ ...entry.detail, ...witnessOf(connection, entry) }),
    previous_hash: last?.hash ?? NO_HASH,
  };
  insert(connection, 'audit', { ...row, hash: hashOf(row) });
  // Every statement comes through here, so the search can't fall behind what is written.
  keepInStep(connection, entry);
}

/** Read back from the database, so that it is what stands there. */
function witnessOf(connection: Connection, { subject, subjectId, rows }: AuditEntry): { rows?: object } {
  const table = WITNESSED.find((one) => one === subject);
  const named = rows ?? (table === undefined ? [] : [{ table, id: subjectId }]);
  if (named.length === 0) return {};
  return {
    rows: Object.fromEntries(
      named.map(({ table: of, id }) => [`${of} ${String(id)}`, rowHash(connection, { table: of, id })]),
    ),
  };
}

interface AuditRow {
  readonly wall_ms: number;
  readonly what: string;
  readonly subject: string;
  readonly subject_id: number;
  readonly detail_json: string;
  readonly previous_hash: Uint8Array;
}

function hashOf(row: AuditRow): Uint8Array {
  const text = JSON.stringify([row.wall_ms, row.what, row.subject, row.subject_id, row.detail_json]);
  return createHash('sha256').update(row.previous_hash).update(text, 'utf8').digest();
}

const auditRow = z.object({
  audit_id: sqlInteger,
  wall_ms: sqlInteger,
  what: z.string(),
  subject: z.string(),
  subject_id: sqlInteger,
  detail_json: z.string(),
  previous_hash: sqlBlob,
  hash: sqlBlob,
});

export interface ChainVerdict {
  readonly length: number;
  /** Number of the first row that does not follow from the one before; null when the chain is whole. */
  readonly brokenAt: number | null;
  /** Hexadecimal; noted elsewhere, it shows a chain that was made anew as a whole. */
  readonly lastHash: string;
}

/** Walks the chain from its beginning. */
export const checkChain = (connection: Connection): ChainVerdict => atOnce(chainInSteps(connection));

/** The same in steps, up to and with an entry. */
export function* chainInSteps(connection: Connection, last = Number.MAX_SAFE_INTEGER): Steps<ChainVerdict> {
  const length = countOf(connection, 'SELECT count(*) AS n FROM audit WHERE audit_id <= ?', last);
  let previous: Uint8Array = NO_HASH;
  // Page by page: a large archive has hundreds of thousands, with all that was said in them.
  for (const rows of pages(connection, auditRow, auditPages(last))) {
    for (const row of rows) {
      if (!equal(row.previous_hash, previous) || !equal(row.hash, hashOf(row)))
        return { length, brokenAt: row.audit_id, lastHash: '' };
      previous = row.hash;
    }
    yield;
  }
  return { length, brokenAt: null, lastHash: Buffer.from(previous).toString('hex') };
}

const auditPages = (last: number) => ({
  table: 'audit',
  key: 'audit_id',
  last,
  idOf: (row: z.infer<typeof auditRow>) => row.audit_id,
});

const equal = (a: Uint8Array, b: Uint8Array): boolean => Buffer.compare(a, b) === 0;
