/**
 * Long reading in steps: between two of them whoever drives it may let other calls have the connection. So no step leaves a
 * query half walked through, and what is read in pages is read up to a row that was there at the start.
 */
import type { z } from 'zod';
import { type Connection, RowDamagedError, allRows } from './sql.ts';

/** Each step ends with nothing; the last with what was found. */
export type Steps<T> = Generator<undefined, T>;

/** All steps in one go. */
export function atOnce<T>(steps: Steps<T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** Rows of a page: some milliseconds, of the longest rows too. */
export const ROWS_PER_STEP = 200;

/**
 * Pages of `table` with all columns, in the order of the rows' numbers, up to and with row `last`. `idOf` gives the number of
 * a row, which stands in the column `key`.
 */
export function* pages<T extends z.ZodType>(
  connection: Connection,
  schema: T,
  {
    table,
    key,
    last,
    idOf,
  }: {
    readonly table: string;
    readonly key: string;
    readonly last: number;
    readonly idOf: (row: z.output<T>) => number;
  },
): Generator<z.output<T>[]> {
  let after = Number.MIN_SAFE_INTEGER;
  for (;;) {
    const rows: z.output<T>[] = allRows(
      connection,
      schema,
      `SELECT * FROM ${table} WHERE ${key} > ? AND ${key} <= ? ORDER BY ${key} LIMIT ${String(ROWS_PER_STEP)}`,
      after,
      last,
    );
    const lastOfPage = rows.at(-1);
    if (lastOfPage === undefined) return;
    yield rows;
    // In a damaged file it would go on for ever.
    if (idOf(lastOfPage) <= after) throw new RowDamagedError(`rows of ${table} are not in their order`);
    after = idOf(lastOfPage);
  }
}
