/**
 * A hash over one row, which the audit entry of its statement carries: a row that was changed by other means shows,
 * whichever of its columns it was. Columns without a value are left out, so that a column added by a later form changes
 * no hash. Rows that an older form left are hashed together when the archive is brought to this one.
 */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { Steps } from './in-steps.ts';
import {
  type Connection,
  RowDamagedError,
  allRows,
  countOf,
  oneRow,
  sqlBlob,
  sqlInteger,
  statement,
} from './sql.ts';

/** Tables whose every row is named by an audit entry. Blocks are not: the end of the pull carries their hash. */
export const WITNESSED = [
  'specimen',
  'readout_profile',
  'pull',
  'pull_end',
  'mark',
  'gap',
  'gap_end',
  'zero',
  'act',
  'fracture_note',
  'specimen_set',
  'set_statement',
  'set_member',
  'set_member_void',
  'verdict_override',
  'certificate',
  'laboratory',
  'evaluation',
  'pull_void',
  'photo',
  'photo_withdrawal',
  'person',
  'signature',
  'certificate_result',
  'typed_pull',
  'instrument',
  'instrument_statement',
  'calibration',
  'pull_instruments',
  'pull_instrument',
  'pull_origin',
  'second_instrument',
  'two_instruments_end',
  'stated_day',
] as const;
export type Witnessed = (typeof WITNESSED)[number];

export interface RowName {
  readonly table: Witnessed;
  readonly id: number;
}

export const rowCells = z.record(z.string(), z.union([z.string(), z.number(), z.null(), sqlBlob]));
type RowCells = z.infer<typeof rowCells>;

/** Hexadecimal; null where there is no such row. */
export function rowHash(connection: Connection, { table, id }: RowName): string | null {
  const found: unknown = statement(connection, `SELECT * FROM ${table} WHERE rowid = ?`).get(id);
  if (found === undefined) return null;
  const read = rowCells.safeParse(found);
  if (!read.success) throw new RowDamagedError(`row ${String(id)} of ${table} holds what no row holds`);
  return hashOfCells(read.data);
}

/** Columns that hold numbers of rows: these are given anew where a row is taken into another archive. */
const isRowNumber = (column: string): boolean =>
  column.endsWith('_id') || column === 'supersedes' || column === 'retest_of';

/** Of what a row says, whichever number it and the rows that it names have: the same in every archive. */
export const contentHash = (cells: RowCells): string =>
  hashOfCells(Object.fromEntries(Object.entries(cells).filter(([column]) => !isRowNumber(column))));

function hashOfCells(cells: RowCells): string {
  const said = Object.entries(cells)
    .filter(([, value]) => value !== null)
    .map(([name, value]) => [name, value instanceof Uint8Array ? sha256(value) : value] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return sha256(JSON.stringify(said));
}

/** Numbers of all rows, in order. */
export function rowIds(connection: Connection, table: Witnessed): number[] {
  return allRows(
    connection,
    z.object({ id: sqlInteger }),
    `SELECT rowid AS id FROM ${table} ORDER BY rowid`,
  ).map((one) => one.id);
}

/** Of one table up to a row. */
export interface RowsBefore {
  readonly last: number;
  readonly count: number;
  readonly sha256: string;
}

/** In steps of one row. */
export function* rowsUpToInSteps(connection: Connection, table: Witnessed, last: number): Steps<RowsBefore> {
  const ids = rowIds(connection, table).filter((id) => id <= last);
  const hash = createHash('sha256');
  for (const id of ids) {
    hash.update(`${String(id)} ${rowHash(connection, { table, id }) ?? ''}\n`);
    yield;
  }
  return { last, count: ids.length, sha256: hash.digest('hex') };
}

function rowsUpTo(connection: Connection, table: Witnessed, last: number, onRow: () => void): RowsBefore {
  const steps = rowsUpToInSteps(connection, table, last);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    onRow();
  }
}

/** Between two words on how far it is. */
const ROWS_AT_ONCE = 200;

/** Every witnessed table that there is, as it is now. `watch` is told how many rows are done; what it throws ends it. */
export function rowsNow(
  connection: Connection,
  watch: (done: number, of: number) => void = () => undefined,
): Partial<Record<Witnessed, RowsBefore>> {
  const tables = WITNESSED.filter((table) => exists(connection, table));
  const of = tables.reduce(
    (sum, table) => sum + countOf(connection, `SELECT count(*) AS n FROM ${table}`),
    0,
  );
  let done = 0;
  const onRow = (): void => {
    done++;
    if (done % ROWS_AT_ONCE === 0) watch(done, of);
  };
  return Object.fromEntries(
    tables.map((table) => [table, rowsUpTo(connection, table, rowIds(connection, table).at(-1) ?? 0, onRow)]),
  );
}

export const exists = (connection: Connection, table: string): boolean =>
  oneRow(
    connection,
    z.object({ name: z.string() }),
    "SELECT name FROM sqlite_schema WHERE type = 'table' AND name = ?",
    table,
  ) !== null;

const sha256 = (of: string | Uint8Array): string => createHash('sha256').update(of).digest('hex');
