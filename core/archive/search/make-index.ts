/**
 * Makes the search index anew from the rows, newest pulls first, in steps of bounded time: what there is of it can be
 * searched meanwhile, statements keep it in step, and a step that was not reached before an end is done after it.
 */
import { z } from 'zod';
import type { IndexProgress } from '../../contract/search-requests.ts';
import { letWrite } from '../let-write.ts';
import { type Connection, allRows, countOf, insert, oneRow, sqlInteger, statement } from '../sql.ts';
import { SEARCH_FORM, SetFacts } from './entry.ts';
import { forgetHeld } from './held-search.ts';
import { isThere, putEntry } from './keep-entries.ts';
import { EMPTY_SEARCH_TABLES } from './tables.ts';

/** Archives with no more pulls have their index made at once when they are opened: within about a second. */
const INDEXED_AT_ONCE_MAX = 500;
/** Between two looks at the clock. */
const PULLS_AT_ONCE = 20;

const formRow = z.object({ form: sqlInteger, below: sqlInteger.nullable() });
type FormRow = z.output<typeof formRow>;

/** Null where there is no index, or one that another program composed otherwise. */
function formOf(connection: Connection): FormRow | null {
  if (!isThere(connection)) return null;
  const hasBelow =
    countOf(connection, "SELECT count(*) AS n FROM pragma_table_info('search_form') WHERE name = 'below'") ===
    1;
  const row = hasBelow ? oneRow(connection, formRow, 'SELECT form, below FROM search_form') : null;
  return row?.form === SEARCH_FORM ? row : null;
}

const count = (connection: Connection, table: 'search_entry' | 'pull'): number =>
  countOf(connection, `SELECT count(*) AS n FROM ${table}`);

/** Whether there is an entry for every pull, composed as this program composes them. */
export function isWhole(connection: Connection): boolean {
  const form = formOf(connection);
  return (
    form !== null && form.below === null && count(connection, 'search_entry') === count(connection, 'pull')
  );
}

/** Null where the index is whole. To be asked of an archive whose index was looked at when it was opened. */
export function indexProgress(connection: Connection): IndexProgress | null {
  const form = formOf(connection);
  if (form !== null && form.below === null) return null;
  return { made: form === null ? 0 : count(connection, 'search_entry'), of: count(connection, 'pull') };
}

/** At the opening for recording: made at once where that is short, otherwise begun, or left as far as it is. */
export function requireIndex(connection: Connection, atOnceMax = INDEXED_AT_ONCE_MAX): void {
  if (isWhole(connection)) return;
  if (count(connection, 'pull') <= atOnceMax) makeAnew(connection);
  else if (typeof formOf(connection)?.below !== 'number') beginAnew(connection);
}

/** An empty index, which \`goOn\` fills. */
export function beginAnew(connection: Connection): void {
  connection
    .transaction(() => {
      forgetHeld(connection);
      connection.exec(EMPTY_SEARCH_TABLES);
      const below = countOf(connection, 'SELECT coalesce(max(pull_id), 0) + 1 AS n FROM pull');
      insert(connection, 'search_form', { form: SEARCH_FORM, below });
    })
    .immediate();
}

/** One step in one transaction, over when \`msMax\` have passed; how far it is, null once it is whole. */
export function goOn(connection: Connection, msMax: number): IndexProgress | null {
  const end = performance.now() + msMax;
  letWrite(connection, () => {
    step(connection, end);
  });
  return indexProgress(connection);
}

function step(connection: Connection, end: number): void {
  connection
    .transaction(() => {
      const sets = new SetFacts(connection);
      let below = formOf(connection)?.below ?? null;
      // At least a few, however slow the machine is: no step is in vain.
      do below = below === null ? null : fewMore(connection, below, sets);
      while (below !== null && performance.now() < end);
      statement(connection, 'UPDATE search_form SET below = ?').run(below);
    })
    .immediate();
}

/** The number below which pulls have no entry yet, afterwards; null where none is left. */
function fewMore(connection: Connection, below: number, sets: SetFacts): number | null {
  const ids = allRows(
    connection,
    z.object({ pull_id: sqlInteger }),
    'SELECT pull_id FROM pull WHERE pull_id < ? ORDER BY pull_id DESC LIMIT ?',
    below,
    PULLS_AT_ONCE,
  ).map((row) => row.pull_id);
  // What was said of a pull meanwhile has made its entry; a verdict that came with it stays.
  for (const id of ids) putEntry(connection, id, { sets, keepVerdict: true });
  return ids.length < PULLS_AT_ONCE ? null : (ids.at(-1) ?? null);
}

/** Pages that one step of tidying writes, about. */
const TIDY_PAGES = 64;

/**
 * One step of bringing the parts that the text index grows in together: a search looks into each of them. False once
 * there is nothing left to be done.
 */
export function tidy(connection: Connection, isFirst: boolean): boolean {
  const changes = (): number => countOf(connection, 'SELECT total_changes() AS n');
  return letWrite(connection, () => {
    const before = changes();
    // A negative number has all parts taken together from now on, a positive one goes on with that.
    statement(connection, "INSERT INTO search_text (search_text, rank) VALUES ('merge', ?)").run(
      isFirst ? -TIDY_PAGES : TIDY_PAGES,
    );
    // By the documentation of the text index, fewer than two changes say that nothing was left to be done.
    return changes() - before >= 2;
  });
}

/** The whole index at once. Verdicts are judged anew when they are asked for. */
export function makeAnew(connection: Connection): void {
  connection
    .transaction(() => {
      beginAnew(connection);
      goOn(connection, Infinity);
      statement(connection, "INSERT INTO search_text (search_text) VALUES ('optimize')").run();
    })
    .immediate();
}
