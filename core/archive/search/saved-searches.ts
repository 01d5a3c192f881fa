/** Searches that a person wants again, by name. */
import { z } from 'zod';
import { SAVED_SEARCHES_MAX, type SavedSearch, searchQuery } from '../../contract/search-requests.ts';
import { ArchiveRefusal } from '../archive-fault.ts';
import { type Connection, allRows, countOf, sqlJson, statement } from '../sql.ts';

const row = z
  .object({ name: z.string(), query_json: sqlJson(searchQuery) })
  .transform(({ name, query_json }): SavedSearch => ({ name, query: query_json }));

export function savedSearches(connection: Connection): SavedSearch[] {
  return allRows(connection, row, 'SELECT name, query_json FROM saved_search ORDER BY name');
}

/** Takes the place of one of the same name. Throws an ArchiveRefusal where there are too many. */
export function saveSearch(connection: Connection, { name, query }: SavedSearch, wallMs: number): void {
  connection
    .transaction(() => {
      forgetSearch(connection, name);
      if (countOf(connection, 'SELECT count(*) AS n FROM saved_search') >= SAVED_SEARCHES_MAX)
        throw new ArchiveRefusal(
          'too-many-searches',
          `${String(SAVED_SEARCHES_MAX)} searches are kept already; forget one first.`,
          'name',
        );
      statement(connection, 'INSERT INTO saved_search (name, query_json, wall_ms) VALUES (?, ?, ?)').run(
        name,
        JSON.stringify(query),
        wallMs,
      );
    })
    .immediate();
}

export function forgetSearch(connection: Connection, name: string): void {
  statement(connection, 'DELETE FROM saved_search WHERE name = ?').run(name);
}
