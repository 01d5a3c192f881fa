/** The database connection of the archive, and rows that are checked on the way back. */
import type Database from 'better-sqlite3';
import { z } from 'zod';

export type Connection = Database.Database;
type Value = string | number | Uint8Array | null;

/** A whole number from a row; beyond the safe integers the library would round it. */
export const sqlInteger = z.number().int();
export const sqlBlob = z.custom<Uint8Array>((v) => v instanceof Uint8Array, 'is not a blob');

/** A column of JSON text, parsed and checked against `schema`. */
export function sqlJson<T extends z.ZodType>(schema: T): z.ZodPreprocess<T> {
  return z.preprocess((text, context) => {
    try {
      return JSON.parse(z.string().parse(text)) as unknown;
    } catch {
      context.issues.push({ code: 'custom', message: 'is not JSON', input: text });
      return z.NEVER;
    }
  }, schema);
}

/** A row of the archive that is not what it should be: damage, or a bug in what wrote it. */
export class RowDamagedError extends Error {
  override readonly name = 'RowDamagedError';
}

function checked<T extends z.ZodType>(schema: T, row: unknown, sql: string): z.output<T> {
  const outcome = schema.safeParse(row);
  if (outcome.success) return outcome.data;
  const issue = outcome.error.issues[0];
  throw new RowDamagedError(
    `a row of the archive is damaged: ${issue?.path.join('.') ?? ''} ${issue?.message ?? ''} (${sql.trim().slice(0, 80)})`,
  );
}

/** Preparing costs more than most statements take, and the program has some dozens of them, all with fixed text. */
const preparedOf = new WeakMap<Connection, Map<string, Database.Statement>>();

/** A statement, prepared once a connection. */
export function statement(connection: Connection, sql: string): Database.Statement {
  const prepared = preparedOf.get(connection) ?? new Map<string, Database.Statement>();
  preparedOf.set(connection, prepared);
  const found = prepared.get(sql) ?? connection.prepare(sql);
  prepared.set(sql, found);
  return found;
}

/** All rows of a query, each checked. */
export function allRows<T extends z.ZodType>(
  connection: Connection,
  schema: T,
  sql: string,
  ...values: Value[]
): z.output<T>[] {
  return statement(connection, sql)
    .all(...values)
    .map((row) => checked(schema, row, sql));
}

/** The same one after the other, where there may be more than memory should hold; meanwhile nothing may be written. */
export function* eachRow<T extends z.ZodType>(
  connection: Connection,
  schema: T,
  sql: string,
  ...values: Value[]
): Generator<z.output<T>> {
  // A statement of its own: one that is being walked through can't be begun again.
  for (const row of connection.prepare(sql).iterate(...values)) yield checked(schema, row, sql);
}

/** The one row of a query, or null. */
export function oneRow<T extends z.ZodType>(
  connection: Connection,
  schema: T,
  sql: string,
  ...values: Value[]
): z.output<T> | null {
  const row = statement(connection, sql).get(...values);
  return row === undefined ? null : checked(schema, row, sql);
}

/** Inserts one row; its number. */
export function insert(connection: Connection, table: string, row: Readonly<Record<string, Value>>): number {
  const names = Object.keys(row);
  const result = statement(
    connection,
    `INSERT INTO ${table} (${names.join(', ')}) VALUES (${names.map((n) => `@${n}`).join(', ')})`,
  ).run(row);
  return Number(result.lastInsertRowid);
}

const count = z.object({ n: sqlInteger });

/** The number that a query counts as `n`. */
export function countOf(connection: Connection, sql: string, ...values: Value[]): number {
  return oneRow(connection, count, sql, ...values)?.n ?? 0;
}
