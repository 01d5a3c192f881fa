/**
 * Verdicts of an archive that is only read: kept beside it, in memory, as long as the connection is open, and seen by
 * every search as if they stood in the index. Nothing of the archive is written.
 */
import { z } from 'zod';
import { letWrite } from '../let-write.ts';
import { type Connection, allRows, countOf, statement } from '../sql.ts';
import { VALUE_COLUMNS, verdictRankOf } from './tables.ts';

export interface VerdictAside {
  readonly pullId: number;
  readonly verdict: string | null;
  readonly questionable: number;
}

/** Some forty bytes a pull of what was judged. */
export function keepAside(connection: Connection, verdicts: readonly VerdictAside[]): void {
  letWrite(connection, () => {
    if (!isBegun(connection)) begin(connection);
    // Of the temporary tables alone: no lock is taken on the archive.
    connection.transaction(() => {
      for (const { pullId, verdict, questionable } of verdicts)
        statement(
          connection,
          'INSERT OR REPLACE INTO temp.verdict_aside (pull_id, verdict, questionable) VALUES (?, ?, ?)',
        ).run(pullId, verdict, questionable);
    })();
  });
}

const isBegun = (connection: Connection): boolean =>
  countOf(connection, "SELECT count(*) AS n FROM sqlite_temp_schema WHERE name = 'verdict_aside'") === 1;

const OTHERWISE: Readonly<Record<string, string>> = {
  verdict: 'a.verdict',
  questionable: 'a.questionable',
  verdict_rank: verdictRankOf('a'),
};

/** A name without its database is looked for among temporary ones first: these views stand before the tables. */
function begin(connection: Connection): void {
  const columnsOf = (table: string): string[] =>
    allRows(
      connection,
      z.object({ name: z.string() }),
      "SELECT name FROM pragma_table_info(?, 'main') ORDER BY cid",
      table,
    ).map(({ name }) => name);
  const view = (table: string, columns: readonly string[]): string =>
    `CREATE TEMP VIEW ${table} AS SELECT ${columns
      .map((column) => {
        const aside = OTHERWISE[column];
        return aside === undefined
          ? `t.${column}`
          : `CASE WHEN a.pull_id IS NULL THEN t.${column} ELSE ${aside} END AS ${column}`;
      })
      .join(', ')} FROM main.${table} t LEFT JOIN temp.verdict_aside a ON a.pull_id = t.pull_id;`;
  connection.pragma('temp_store = MEMORY');
  connection.exec(`
CREATE TEMP TABLE verdict_aside (
  pull_id INTEGER PRIMARY KEY,
  verdict TEXT,
  questionable INTEGER NOT NULL
) STRICT;
${view('search_entry', columnsOf('search_entry'))}
${view('search_value', VALUE_COLUMNS)}`);
}
