/**
 * The search in memory, of a program that goes on running: values of all pulls and pulls of common words, filled step by
 * step while there is nothing else to do. Until it is whole, or where it would grow too large, the database is asked
 * instead and finds the same, only later.
 *
 * What changes is only noted, inside the transaction that changes it, and read again before the next search: whether
 * that transaction was kept or undone, what is read is what stands.
 */
import { z } from 'zod';
import { mayWrite } from '../let-write.ts';
import { type Connection, allRows, countOf, oneRow } from '../sql.ts';
import type { Condition, Written } from './condition.ts';
import type { OrderKey } from './found-order.ts';
import { HeldPulls, VALUE_SELECT, valueRow } from './held-pulls.ts';
import { CommonWords, HeldWords, type WordLimits } from './held-words.ts';
import { numbersOf } from './saved-pieces.ts';
import {
  type Piece,
  type SavedSearch,
  isSavingDue,
  saveInSteps,
  savedSearch,
  wordPiece,
} from './saved-search.ts';
import type { OrderColumn } from './tables.ts';

/** What is held, at most: numbers of pulls up to `pullsMax` (about 200 bytes each), and words. */
export interface HeldLimits {
  readonly pullsMax: number;
  readonly words: WordLimits;
  /** Pulls that changed and are read again before a search answers. */
  readonly changedAtOnceMax: number;
  /** Of what is saved for the next program. */
  readonly saved: {
    /** An archive with fewer pulls is gathered in a moment. */
    readonly pullsMin: number;
    /** Pulls that have changed since it was saved: from so many on it is saved again, and with more nothing of it is used. */
    readonly changedMin: number;
    readonly changedMax: number;
    readonly wordBytesMax: number;
    readonly bytesAtOnce: number;
  };
}

const HELD_LIMITS: HeldLimits = {
  pullsMax: 500_000,
  words: { pullsMin: 1_000, bytesMax: 48 * 1_048_576 },
  changedAtOnceMax: 4,
  saved: {
    pullsMin: 2_000,
    changedMin: 500,
    changedMax: 5_000,
    wordBytesMax: 16 * 1_048_576,
    bytesAtOnce: 1_048_576,
  },
};

export interface HeldAsked {
  readonly condition: Condition;
  readonly column: OrderColumn | null;
  readonly descending: boolean;
  readonly after: OrderKey | null;
  readonly limit: number;
}

const PULLS_AT_ONCE = 1_000;
const SAVED_WORDS_AT_ONCE = 50;

const writtenRow = z.object({
  words: z.string(),
  set_names: z.string(),
  rules: z.string(),
  base_metal: z.string(),
  filler: z.string(),
});

class HeldSearch {
  readonly #connection: Connection;
  readonly #limits: HeldLimits;
  #pulls = new HeldPulls();
  #words: HeldWords;
  /** Pulls of which something changed, and whether that is more than the verdict. */
  readonly #changed = new Map<number, boolean>();
  #common: CommonWords;
  #ahead: ReturnType<CommonWords['found']['values']> | null = null;
  #stage: 'saved' | 'saved-words' | 'pulls' | 'common' | 'words' | 'whole' | 'too-large' = 'saved';
  #saved: SavedSearch | null = null;
  /** Null while nothing is being saved. */
  #saving: Generator<undefined, void> | null = null;
  /** Whether to look if it is to be saved: something has changed since that was looked at last. */
  #looksAtSaved = true;

  constructor(connection: Connection, limits: HeldLimits) {
    this.#connection = connection;
    this.#limits = limits;
    this.#words = new HeldWords(connection, limits.words);
    this.#common = new CommonWords(connection, limits.words.pullsMin);
  }

  note(pullId: number, isMoreThanVerdict: boolean): void {
    if (this.#stage === 'too-large') return;
    this.#changed.set(pullId, isMoreThanVerdict || (this.#changed.get(pullId) ?? false));
  }

  /** One short step; false where nothing is left to be done. */
  goOn(): boolean {
    if (this.#stage === 'too-large') return false;
    if (this.#stage === 'saved') this.#takeOverPulls();
    else if (this.#stage === 'saved-words') this.#takeOverWords();
    else if (this.#stage === 'pulls') this.#readPulls();
    else if (this.#readChanged(this.#limits.changedAtOnceMax)) return true;
    else if (this.#stage === 'common') this.#readCommon();
    else if (this.#stage === 'words') this.#readWord();
    else return this.#save();
    return true;
  }

  /** What was saved is not taken over yet, or what has changed since not read. */
  get isTakingOver(): boolean {
    return this.#stage.startsWith('saved') || (this.#saved !== null && this.#changed.size > 0);
  }

  /** Null where it can't tell. */
  page(asked: HeldAsked): number[] | null {
    if (this.#stage === 'pulls' || this.#stage === 'too-large' || this.#stage.startsWith('saved'))
      return null;
    if (this.#readChanged(this.#limits.changedAtOnceMax)) return null;
    const { among, few } = this.#words.with(asked.condition.words, this.#pulls.top);
    const { filters } = asked.condition;
    const page = { ...asked, filters, among };
    return few === null ? this.#pulls.page(page) : this.#pulls.pageOf(few, page);
  }

  #takeOverPulls(): void {
    this.#stage = 'pulls';
    const saved = savedSearch(this.#connection, this.#limits.saved.changedMax);
    if (saved === null) return;
    const pulls = new HeldPulls();
    if (!pulls.takeOver(saved.pieceOf, saved.changed) || pulls.top > this.#limits.pullsMax) return;
    this.#pulls = pulls;
    this.#saved = saved;
    for (const pullId of saved.changed) this.#changed.set(pullId, true);
    this.#ahead = saved.words.values();
    this.#stage = 'saved-words';
  }

  /** Before anything that has changed is read: that is then put right in the words too. */
  #takeOverWords(): void {
    for (let n = 0; n < SAVED_WORDS_AT_ONCE; n++) {
      const next = this.#ahead?.next();
      if (next === undefined || next.done === true) {
        this.#ahead = null;
        this.#stage = 'whole';
        return;
      }
      const bits = numbersOf(this.#saved?.pieceOf(wordPiece(next.value)) ?? null, Uint32Array);
      if (bits !== null) this.#words.takeOver(next.value, bits);
    }
  }

  /** Whether there is more to be done. */
  #save(): boolean {
    const { saved } = this.#limits;
    if (this.#saving === null) {
      if (!this.#looksAtSaved || this.#pulls.count < saved.pullsMin || !mayWrite(this.#connection))
        return false;
      this.#looksAtSaved = false;
      if (!isSavingDue(this.#connection, saved.changedMin)) return false;
      if (this.#saved !== null) {
        // What is common by now is looked for once more.
        this.#saved = null;
        this.#looksAtSaved = true;
        this.#common = new CommonWords(this.#connection, this.#limits.words.pullsMin);
        this.#stage = 'common';
        return true;
      }
      this.#saving = saveInSteps(this.#connection, this.#pieces(), saved.bytesAtOnce);
    }
    if (isOver(this.#saving)) this.#saving = null;
    return this.#saving !== null;
  }

  *#pieces(): Generator<Piece> {
    yield* this.#pulls.pieces();
    for (const [sought, bits] of this.#words.pieces(this.#limits.saved.wordBytesMax))
      yield [wordPiece(sought), bits];
  }

  #readPulls(): void {
    if (
      this.#isTooLarge(countOf(this.#connection, 'SELECT coalesce(max(pull_id), 0) AS n FROM search_value'))
    )
      return;
    const rows = allRows(
      this.#connection,
      valueRow,
      `${VALUE_SELECT} WHERE pull_id > ? ORDER BY pull_id LIMIT ?`,
      this.#pulls.top,
      PULLS_AT_ONCE,
    );
    this.#pulls.addAll(rows);
    if (rows.length < PULLS_AT_ONCE) this.#stage = 'common';
  }

  #readCommon(): void {
    if (this.#common.goOn()) return;
    this.#ahead = this.#common.found.values();
    this.#stage = 'words';
  }

  #readWord(): void {
    const next = this.#ahead?.next();
    if (next?.done === false && this.#words.hold(next.value, this.#pulls.top)) return;
    this.#ahead = null;
    this.#stage = 'whole';
  }

  /** Whether some are left. */
  #readChanged(atMost: number): boolean {
    let left = atMost;
    for (const [pullId, isMoreThanVerdict] of this.#changed) {
      if (left-- === 0) return true;
      this.#changed.delete(pullId);
      this.#looksAtSaved = true;
      const row = oneRow(this.#connection, valueRow, `${VALUE_SELECT} WHERE pull_id = ?`, pullId);
      if (row === null) this.#pulls.remove(pullId);
      else if (this.#isTooLarge(pullId)) return true;
      else this.#pulls.put(row);
      if (isMoreThanVerdict) this.#words.changed(pullId, row === null ? null : this.#writtenOf(pullId));
    }
    return false;
  }

  #writtenOf(pullId: number): Written | null {
    return oneRow(
      this.#connection,
      writtenRow,
      'SELECT words, set_names, rules, base_metal, filler FROM search_entry WHERE pull_id = ?',
      pullId,
    );
  }

  #isTooLarge(pullId: number): boolean {
    if (pullId <= this.#limits.pullsMax) return false;
    this.#stage = 'too-large';
    this.#changed.clear();
    this.#pulls = new HeldPulls();
    this.#words = new HeldWords(this.#connection, this.#limits.words);
    return true;
  }
}

/** One step of saving. Where the disk is full or can't be written to, nothing is saved, and nothing is lost by that. */
function isOver(saving: Generator<undefined, void>): boolean {
  try {
    return saving.next().done === true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_')) return true;
    throw error;
  }
}

const heldOf = new WeakMap<Connection, HeldSearch>();

/** To be called where the entry of a pull was made, made anew or taken away. */
export function entryChanged(connection: Connection, pullId: number): void {
  heldOf.get(connection)?.note(pullId, true);
}

export function judgedAnew(connection: Connection, pullId: number): void {
  heldOf.get(connection)?.note(pullId, false);
}

/** To be called where all entries go. */
export function forgetHeld(connection: Connection): void {
  heldOf.delete(connection);
}

/** Begins or goes on, for about so long, between transactions; false where nothing is left to be done. */
export function goOnHolding(connection: Connection, msMax: number, limits = HELD_LIMITS): boolean {
  const held = heldIn(connection, limits);
  return goOnFor(msMax, () => held.goOn());
}

/** The same as far as an earlier program has saved what it held, which takes moments; false where nothing of it is left. */
export function goOnTakingOver(connection: Connection, msMax: number, limits = HELD_LIMITS): boolean {
  const held = heldIn(connection, limits);
  return goOnFor(msMax, () => held.isTakingOver && held.goOn() && held.isTakingOver);
}

function heldIn(connection: Connection, limits: HeldLimits): HeldSearch {
  const held = heldOf.get(connection) ?? new HeldSearch(connection, limits);
  heldOf.set(connection, held);
  return held;
}

function goOnFor(msMax: number, step: () => boolean): boolean {
  const end = performance.now() + msMax;
  let isMore: boolean;
  do isMore = step();
  while (isMore && performance.now() < end);
  return isMore;
}

/** Numbers of the pulls of one page, in order; null where it isn't held, or what is held is not what is asked. */
export function heldPage(connection: Connection, asked: HeldAsked): number[] | null {
  // What a transaction has changed and may still undo is not taken over.
  return connection.inTransaction ? null : (heldOf.get(connection)?.page(asked) ?? null);
}
