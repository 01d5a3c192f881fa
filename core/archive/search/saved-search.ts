/**
 * What a program held in memory for searches, kept beside the index in pieces: the next program takes it over in a moment
 * instead of gathering it from all pulls. Derived like the index itself. Triggers of the index note every pull that is
 * changed after the first piece was begun; those are read again, whatever the pieces say of them.
 */
import { z } from 'zod';
import { type Connection, allRows, countOf, oneRow, sqlBlob, sqlInteger, statement } from '../sql.ts';
import { type Sought, TEXT_COLUMNS } from './condition.ts';

/** Raised by one when pieces are made otherwise. */
const SAVED_FORM = 3;
/** Stand first and last among the pieces: what lacks the last was not saved to its end. */
const [BEGUN, WHOLE] = ['begun', 'whole'];
const WORD = 'word ';

export type Piece = readonly [name: string, body: Uint8Array];

export interface SavedSearch {
  readonly pieceOf: (name: string) => Uint8Array | null;
  readonly words: readonly Sought[];
  /** Pulls of which something was changed since. */
  readonly changed: ReadonlySet<number>;
}

const body = z.object({ body: sqlBlob });
const sought = z.strictObject({
  words: z.array(z.string()),
  isBeginning: z.boolean(),
  column: z.enum(TEXT_COLUMNS).exactOptional(),
});

/** The pieces are read one by one. Null where nothing whole is saved, or more than `changedMax` pulls have changed since. */
export function savedSearch(connection: Connection, changedMax: number): SavedSearch | null {
  const pieceOf = (name: string): Uint8Array | null =>
    oneRow(connection, body, 'SELECT body FROM search_saved WHERE name = ?', name)?.body ?? null;
  const form = pieceOf(WHOLE);
  if (form === null || Buffer.from(form).toString() !== String(SAVED_FORM)) return null;
  const changed = allRows(
    connection,
    z.object({ pull_id: sqlInteger }),
    'SELECT pull_id FROM search_changed LIMIT ?',
    changedMax + 1,
  ).map((row) => row.pull_id);
  if (changed.length > changedMax) return null;
  const words = allRows(
    connection,
    z.object({ name: z.string() }),
    'SELECT name FROM search_saved WHERE name >= ? AND name < ? ORDER BY rowid',
    WORD,
    `${WORD}\u{10ffff}`,
  ).flatMap(({ name }) => readWord(name) ?? []);
  return { pieceOf, words, changed: new Set(changed) };
}

export const wordPiece = (one: Sought): string => WORD + JSON.stringify(one);

function readWord(name: string): Sought | null {
  try {
    return sought.parse(JSON.parse(name.slice(WORD.length)));
  } catch {
    return null;
  }
}

/** Nothing whole is saved, or so many pulls have changed since. */
export const isSavingDue = (connection: Connection, changedMin: number): boolean =>
  countOf(connection, 'SELECT count(*) AS n FROM search_saved WHERE name = ?', WHOLE) === 0 ||
  countOf(connection, 'SELECT count(*) AS n FROM (SELECT 1 FROM search_changed LIMIT ?)', changedMin) ===
    changedMin;

/**
 * Saves in steps of about `bytesAtOnce` in a transaction each, between which anything may be said: whatever is, is noted
 * as changed from the first step on. Yields after each.
 */
export function* saveInSteps(
  connection: Connection,
  pieces: Iterable<Piece>,
  bytesAtOnce: number,
): Generator<undefined, void> {
  connection
    .transaction(() => {
      connection.exec('DELETE FROM search_saved; DELETE FROM search_changed');
      put(connection, [BEGUN, new Uint8Array(0)]);
    })
    .immediate();
  yield;
  const left = pieces[Symbol.iterator]();
  for (let isLast = false; !isLast;) {
    connection
      .transaction(() => {
        for (let bytes = 0; bytes < bytesAtOnce;) {
          const next = left.next();
          if (next.done === true) {
            isLast = true;
            put(connection, [WHOLE, Buffer.from(String(SAVED_FORM))]);
            return;
          }
          put(connection, next.value);
          bytes += next.value[1].byteLength;
        }
      })
      .immediate();
    yield;
  }
}

function put(connection: Connection, [name, bytes]: Piece): void {
  statement(connection, 'INSERT INTO search_saved (name, body) VALUES (?, ?)').run(name, bytes);
}
