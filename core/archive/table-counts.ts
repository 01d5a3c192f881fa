/**
 * How many rows each table has at one moment, for a copy to be compared with. Counting a large table takes longer than a
 * commit may wait, so what can't change any more is counted ahead, some rows at a time; at the moment itself only what
 * came since is counted, and tables that have few rows.
 */
import { z } from 'zod';
import { type Connection, allRows, countOf } from './sql.ts';
import { TABLES_OF_NO_FORM } from './tables-of-no-form.ts';

export const tableCount = z.strictObject({ table: z.string(), rows: z.int().nonnegative() });
export type TableCount = z.infer<typeof tableCount>;

/** Keys counted at a time: a few ten thousand rows at most. */
const KEYS_AT_ONCE = 1_000;

/**
 * Tables that only grow, and behind their last key: what stands up to a key stays so. Of the record that is open blocks
 * are taken together when it is closed, so blocks are counted ahead only of pulls before it. Any table that is not among
 * these is counted at the moment itself.
 */
const GROWS_BY: Readonly<Record<string, string>> = {
  audit: 'audit_id',
  specimen: 'specimen_id',
  measurement: 'specimen_id',
  pull: 'pull_id',
  pull_instruments: 'pull_id',
  pull_instrument: 'pull_instrument_id',
  mark: 'mark_id',
  gap: 'gap_id',
  act: 'act_id',
  zero: 'zero_id',
  fracture_note: 'fracture_note_id',
  evaluation: 'evaluation_id',
  stated_day: 'stated_day_id',
  photo: 'photo_id',
  certificate_result: 'certificate_result_id',
};
const BLOCKS = ['raw_block', 'reading_block'];

interface CountedAhead {
  /** The last key whose rows are counted. */
  readonly upTo: number;
  readonly rows: number;
}

export class TableCounts {
  readonly #connection: Connection;
  readonly #ahead = new Map<string, CountedAhead>();

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  /** Counts what stays as it is; yields so often that other work can come between. */
  *countAhead(): Generator<undefined, void> {
    const open = countOf(
      this.#connection,
      'SELECT coalesce(min(pull_id), 0) AS n FROM (SELECT pull_id FROM pull EXCEPT SELECT pull_id FROM pull_end)',
    );
    yield;
    for (const table of tablesOf(this.#connection)) {
      const key = keyOf(table);
      if (key === null) continue;
      const last = countOf(this.#connection, `SELECT coalesce(max(${key}), 0) AS n FROM ${table}`);
      const upTo = BLOCKS.includes(table) && open > 0 ? open - 1 : last;
      let rows = 0;
      for (let from = 0; from < upTo; from += KEYS_AT_ONCE) {
        rows += this.#between(table, key, from, Math.min(upTo, from + KEYS_AT_ONCE));
        yield;
      }
      this.#ahead.set(table, { upTo, rows });
    }
  }

  /** The rows of every table now. */
  now(): readonly TableCount[] {
    return tablesOf(this.#connection).map((table) => {
      const ahead = this.#ahead.get(table);
      const key = keyOf(table);
      if (ahead === undefined || key === null) return { table, rows: allOf(this.#connection, table) };
      return {
        table,
        rows: ahead.rows + this.#between(table, key, ahead.upTo, Number.MAX_SAFE_INTEGER),
      };
    });
  }

  #between(table: string, key: string, after: number, upTo: number): number {
    return countOf(
      this.#connection,
      `SELECT count(*) AS n FROM ${table} WHERE ${key} > ? AND ${key} <= ?`,
      after,
      upTo,
    );
  }
}

/** The same by counting every row, for a copy that nobody waits for. */
export const countedRows = (connection: Connection): readonly TableCount[] =>
  tablesOf(connection).map((table) => ({ table, rows: allOf(connection, table) }));

const keyOf = (table: string): string | null =>
  BLOCKS.includes(table) ? 'pull_id' : (GROWS_BY[table] ?? null);

const allOf = (connection: Connection, table: string): number =>
  countOf(connection, `SELECT count(*) AS n FROM ${table}`);

/**
 * All but those of the search, which are derived and checked by `archive check`, its small pictures, and what pulls were
 * first worked out as (first-stated.ts), which may be noted meanwhile.
 */
const tablesOf = (connection: Connection): string[] =>
  allRows(
    connection,
    z.object({ name: z.string().regex(/^[a-z_]+$/) }),
    `SELECT name FROM pragma_table_list
     WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'search_%'
       AND name <> 'thumbnail'
     ORDER BY name`,
  )
    .map(({ name }) => name)
    .filter((name) => !TABLES_OF_NO_FORM.includes(name));
