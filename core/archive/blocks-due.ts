/**
 * Which chunk and which reading of a pull are due next. Asked of the archive once, then remembered from commit to
 * commit: the recorder has it for itself, and the question took a fifth of a commit's time.
 */
import { type Connection, countOf } from './sql.ts';

export interface BlocksDue {
  readonly chunk: number;
  readonly seq: number;
}

const remembered = new WeakMap<Connection, BlocksDue & { readonly pullId: number }>();

/** To be called after a commit. Within a larger transaction, which may yet be undone, nothing is remembered. */
export function rememberDue(connection: Connection, pullId: number, due: BlocksDue): void {
  if (connection.inTransaction) remembered.delete(connection);
  else remembered.set(connection, { pullId, ...due });
}

export function blocksDue(connection: Connection, pullId: number): BlocksDue {
  const last = remembered.get(connection);
  if (last?.pullId === pullId) return last;
  // From the newest block alone: what looks at all of them takes longer with every commit of a long pull.
  return {
    chunk: countOf(
      connection,
      'SELECT first_chunk + chunk_count AS n FROM raw_block WHERE pull_id = ? ORDER BY first_chunk DESC LIMIT 1',
      pullId,
    ),
    seq: countOf(
      connection,
      'SELECT first_seq + reading_count AS n FROM reading_block WHERE pull_id = ? ORDER BY first_seq DESC LIMIT 1',
      pullId,
    ),
  };
}
