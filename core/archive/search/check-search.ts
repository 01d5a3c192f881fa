/** The search index against the rows that it is made from. */
import { z } from 'zod';
import type { Steps } from '../in-steps.ts';
import { letWrite } from '../let-write.ts';
import { type Connection, allRows, countOf, eachRow, sqlInteger, statement } from '../sql.ts';
import { asMatch } from './condition.ts';
import { SetFacts, composeEntry } from './entry.ts';
import { HeldPulls, VALUE_SELECT, valueRow } from './held-pulls.ts';
import { WITH_WORDS, bitsOf, pullIdsOf, sameBits } from './held-words.ts';
import { indexProgress, isWhole } from './make-index.ts';
import { numbersOf } from './saved-pieces.ts';
import { savedSearch, wordPiece } from './saved-search.ts';
import { VALUE_COLUMNS, valuesOf } from './tables.ts';

const TOLD_MAX = 10;
/** What is not composed from rows: verdicts come of an evaluation, and when the entry was made. */
const NOT_COMPOSED = new Set(['verdict', 'questionable', 'made_at_audit']);

/** In a few words each, what is wrong; empty where every entry is what its rows say. Of one pull only its own is looked at. */
export function* checkSearch(
  connection: Connection,
  pullId?: number,
): Steps<{
  readonly checked: number;
  readonly found: readonly string[];
}> {
  // One that is still being made is compared as far as it is.
  if (!isWhole(connection) && indexProgress(connection) === null)
    return {
      checked: 0,
      found: [
        'it does not have one entry for each pull; it is made anew when the archive is next opened for recording',
      ],
    };
  const found: string[] = [];
  const sets = new SetFacts(connection);
  const ids = allRows(
    connection,
    z.object({ pull_id: sqlInteger }),
    'SELECT pull_id FROM search_entry WHERE pull_id = coalesce(?, pull_id) ORDER BY pull_id',
    pullId ?? null,
  ).map((row) => row.pull_id);
  const wrong: number[] = [];
  for (const id of ids) {
    // A set may have got another statement since its facts were gathered.
    if (!agrees(connection, id, sets) && !agrees(connection, id, new SetFacts(connection))) wrong.push(id);
    yield;
  }
  if (wrong.length > 0)
    found.push(
      `${String(wrong.length)} entries are not what the rows say: pull ${wrong.slice(0, TOLD_MAX).join(', ')}${wrong.length > TOLD_MAX ? ' …' : ''}`,
    );
  if (pullId === undefined && !valuesAreThoseOfEntries(connection))
    found.push('what it sorts and filters by is not what its entries say');
  if (pullId === undefined && !textIndexIsSound(connection))
    found.push('the words of its text index are not those of its entries');
  if (pullId === undefined && !savedAgrees(connection))
    found.push('what was saved of it for the next start is not what its entries say');
  return { checked: ids.length, found };
}

/** Of pulls that have not changed since it was saved. */
function savedAgrees(connection: Connection): boolean {
  const saved = savedSearch(connection, Number.MAX_SAFE_INTEGER - 1);
  if (saved === null) return true;
  const pulls = new HeldPulls();
  if (!pulls.takeOver(saved.pieceOf, saved.changed) || !pulls.isInOrder) return false;
  let count = 0;
  for (const row of eachRow(connection, valueRow, VALUE_SELECT)) {
    if (saved.changed.has(row.pull_id)) continue;
    if (!pulls.agreesWith(row)) return false;
    count++;
  }
  if (count !== pulls.count) return false;
  return saved.words.every((sought) => {
    const bits = numbersOf(saved.pieceOf(wordPiece(sought)), Uint32Array);
    const found = pullIdsOf(connection.prepare(WITH_WORDS), [asMatch([sought]), -1]);
    return bits !== null && sameBits(bits, bitsOf(found, pulls.top), [...saved.changed]);
  });
}

function agrees(connection: Connection, pullId: number, sets: SetFacts): boolean {
  const kept = z
    .record(z.string(), z.union([z.string(), z.number(), z.null()]))
    .safeParse(statement(connection, 'SELECT * FROM search_entry WHERE pull_id = ?').get(pullId));
  const composed = composeEntry(connection, pullId, sets);
  if (!kept.success || composed === null) return false;
  return Object.entries(composed).every(
    ([name, value]) => NOT_COMPOSED.has(name) || kept.data[name] === value,
  );
}

function valuesAreThoseOfEntries(connection: Connection): boolean {
  const kept = `SELECT ${VALUE_COLUMNS.join(', ')} FROM search_value`;
  const composed = `SELECT ${valuesOf('e')} FROM search_entry e`;
  const more = (one: string, other: string): number =>
    countOf(connection, `SELECT count(*) AS n FROM (${one} EXCEPT ${other})`);
  return more(kept, composed) === 0 && more(composed, kept) === 0;
}

/** The database compares the index with its entries itself; the call has the form of a write and changes nothing. */
function textIndexIsSound(connection: Connection): boolean {
  try {
    letWrite(connection, () => {
      connection.exec("INSERT INTO search_text (search_text, rank) VALUES ('integrity-check', 1)");
    });
    return true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_CORRUPT'))
      return false;
    throw error;
  }
}
