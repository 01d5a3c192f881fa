/** The hash that names the raw record of a closed pull: over all its raw bytes in order. */
import { z } from 'zod';
import { type Connection, oneRow, sqlBlob } from './sql.ts';

/** Hexadecimal; null while the record is open. */
export function rawSha256(connection: Connection, pullId: number): string | null {
  const row = oneRow(
    connection,
    z.object({ raw_sha256: sqlBlob }),
    'SELECT raw_sha256 FROM pull_end WHERE pull_id = ?',
    pullId,
  );
  return row === null ? null : Buffer.from(row.raw_sha256).toString('hex');
}
