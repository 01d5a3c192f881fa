/** Yield and elongation of a pull in the index, where a note beside the record gives them that no statement tells of. */
import { type Connection, statement } from '../sql.ts';
import { composeEntry } from './entry.ts';
import { judgedAnew } from './held-search.ts';
import { isThere } from './keep-entries.ts';

/** To be called inside the transaction that keeps what was stated, after its row. Words and verdict stay as they are. */
export function statedAnew(connection: Connection, pullId: number): void {
  if (!isThere(connection)) return;
  const entry = composeEntry(connection, pullId);
  if (entry === null) return;
  const { yield_mpa: yieldMpa = null, elongation_percent: elongation = null } = entry;
  const { changes } = statement(
    connection,
    `UPDATE search_entry SET yield_mpa = ?, elongation_percent = ?
     WHERE pull_id = ? AND (yield_mpa IS NOT ? OR elongation_percent IS NOT ?)`,
  ).run(yieldMpa, elongation, pullId, yieldMpa, elongation);
  if (changes > 0) judgedAnew(connection, pullId);
}
