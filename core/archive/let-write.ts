/** A connection that only reads, let write for something that is no change of what it reads. */
import { type Connection, countOf } from './sql.ts';

export function letWrite<T>(connection: Connection, work: () => T): T {
  const queryOnly = countOf(connection, 'SELECT query_only AS n FROM pragma_query_only');
  connection.pragma('query_only = OFF');
  try {
    return work();
  } finally {
    connection.pragma(`query_only = ${String(queryOnly)}`);
  }
}

export const mayWrite = (connection: Connection): boolean =>
  countOf(connection, 'SELECT query_only AS n FROM pragma_query_only') === 0;
