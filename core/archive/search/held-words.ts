/**
 * Which pulls have a common word, in memory: a bit a pull. What few pulls have the text index tells as quickly, so it is
 * not held. A word that is asked for and turns out to be common is held from then on.
 */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { type Connection, allRows, sqlInteger, statement } from '../sql.ts';
import {
  TEXT_COLUMNS,
  type Sought,
  type TextColumn,
  type Written,
  asMatch,
  isWrittenIn,
} from './condition.ts';
import { bytesOf } from './saved-pieces.ts';

export interface WordLimits {
  /** Pulls that have a word that is held, at least; when it becomes rarer it stays. */
  readonly pullsMin: number;
  /** Bytes of all that is held; what was asked for longest ago goes. */
  readonly bytesMax: number;
}

interface HeldWord {
  readonly sought: Sought;
  bits: Uint32Array;
}

const keyOf = ({ words, isBeginning, column }: Sought): string =>
  `${column ?? ''}:${words.join(' ')}${isBeginning ? '*' : ''}`;

/** A bit for each of these pulls, with room for others up to `top`. */
export function bitsOf(pullIds: Iterable<number>, top: number): Uint32Array {
  const bits = new Uint32Array((top >>> 5) + 1);
  for (const id of pullIds) setBit(bits, id);
  return bits;
}

const setBit = (bits: Uint32Array, id: number): void => {
  bits[id >>> 5] = (bits[id >>> 5] ?? 0) | (1 << (id & 31));
};
const clearBit = (bits: Uint32Array, id: number): void => {
  bits[id >>> 5] = (bits[id >>> 5] ?? 0) & ~(1 << (id & 31));
};

/** Whether they are of the same pulls, but for some. */
export function sameBits(a: Uint32Array, b: Uint32Array, but: readonly number[]): boolean {
  const length = Math.max(a.length, b.length);
  const unlike = Uint32Array.from({ length }, (_, i) => (a[i] ?? 0) ^ (b[i] ?? 0));
  for (const id of but) if (id >>> 5 < length) clearBit(unlike, id);
  return unlike.every((one) => one === 0);
}

/** Pulls that have all words of a condition: a bit for each, or few by number; what stands in both must hold. */
export interface WithWords {
  readonly among: Uint32Array | null;
  readonly few: readonly number[] | null;
}

/** As one text: a row for each number would take three times as long. */
export const asOneText = (idsSql: string): string => `SELECT group_concat(id) AS ids FROM (${idsSql})`;
const oneText = z.object({ ids: z.string().nullable() });

/** Numbers of pulls, of a statement that gives them as one text. */
export function pullIdsOf(asked: Database.Statement, values: readonly (string | number)[]): number[] {
  const joined = oneText.parse(asked.get(...values)).ids;
  const ids: unknown = JSON.parse(`[${joined ?? ''}]`);
  return z.array(z.number()).parse(ids);
}

export const WITH_WORDS = asOneText('SELECT rowid AS id FROM search_text WHERE search_text MATCH ? LIMIT ?');

export class HeldWords {
  readonly #connection: Connection;
  readonly #limits: WordLimits;
  /** By what is looked for; what was asked for last comes last. */
  readonly #held = new Map<string, HeldWord>();
  #bytes = 0;

  constructor(connection: Connection, limits: WordLimits) {
    this.#connection = connection;
    this.#limits = limits;
  }

  get bytes(): number {
    return this.#bytes;
  }

  /** `top` is the largest number of a pull. */
  with(words: readonly Sought[], top: number): WithWords {
    let [among, few]: [Uint32Array | null, readonly number[] | null] = [null, null];
    for (const sought of words) {
      const bits = this.#bitsOf(sought, top);
      if (bits instanceof Uint32Array) among = among === null ? bits : bothBits(among, bits);
      else if (bits.length === 0) return { among: null, few: [] };
      else few = few === null ? bits : inBoth(few, bits);
    }
    return { among, few };
  }

  /** Holds a word ahead of its being asked for; false where there is no room left. */
  hold(sought: Sought, top: number): boolean {
    if (this.#bytes + 4 * ((top >>> 5) + 1) > this.#limits.bytesMax) return false;
    if (!this.#held.has(keyOf(sought))) this.#keep(sought, bitsOf(this.#find(sought, null), top));
    return true;
  }

  /** What is held, what was asked for last first, up to so many bytes. */
  *pieces(bytesMax: number): Generator<readonly [sought: Sought, bits: Uint8Array]> {
    let bytes = 0;
    for (const { sought, bits } of [...this.#held.values()].reverse()) {
      bytes += bits.byteLength;
      if (bytes > bytesMax) return;
      yield [sought, bytesOf(bits)];
    }
  }

  /** A word whose bits were made earlier. */
  takeOver(sought: Sought, bits: Uint32Array): void {
    if (this.#bytes + bits.byteLength <= this.#limits.bytesMax) this.#keep(sought, bits);
  }

  /** Null: the pull is no more. */
  changed(pullId: number, written: Written | null): void {
    for (const word of this.#held.values()) {
      const has = written !== null && isWrittenIn(word.sought, written);
      if (has) {
        if (pullId >>> 5 >= word.bits.length) this.#grow(word, pullId);
        setBit(word.bits, pullId);
      } else if (pullId >>> 5 < word.bits.length) clearBit(word.bits, pullId);
    }
  }

  /** Few pulls as they are, more as bits. */
  #bitsOf(sought: Sought, top: number): Uint32Array | readonly number[] {
    const key = keyOf(sought);
    const known = this.#held.get(key);
    if (known !== undefined) {
      this.#held.delete(key);
      this.#held.set(key, known);
      return known.bits;
    }
    const ids = this.#find(sought, this.#limits.pullsMin);
    if (ids.length < this.#limits.pullsMin) return ids;
    const bits = bitsOf(this.#find(sought, null), top);
    this.#keep(sought, bits);
    return bits;
  }

  #find(sought: Sought, atMost: number | null): number[] {
    return pullIdsOf(statement(this.#connection, WITH_WORDS), [asMatch([sought]), atMost ?? -1]);
  }

  #keep(sought: Sought, bits: Uint32Array): void {
    this.#held.set(keyOf(sought), { sought, bits });
    this.#bytes += bits.byteLength;
    this.#letGo();
  }

  #grow(word: HeldWord, pullId: number): void {
    const bits = new Uint32Array(Math.max((pullId >>> 5) + 1, Math.ceil(word.bits.length * 1.25)));
    bits.set(word.bits);
    this.#bytes += bits.byteLength - word.bits.byteLength;
    word.bits = bits;
    this.#letGo();
  }

  #letGo(): void {
    for (const [key, { bits }] of this.#held) {
      if (this.#bytes <= this.#limits.bytesMax) return;
      this.#held.delete(key);
      this.#bytes -= bits.byteLength;
    }
  }
}

function bothBits(a: Uint32Array, b: Uint32Array): Uint32Array {
  const both = new Uint32Array(Math.min(a.length, b.length));
  for (let i = 0; i < both.length; i++) both[i] = (a[i] ?? 0) & (b[i] ?? 0);
  return both;
}

function inBoth(a: readonly number[], b: readonly number[]): number[] {
  const wanted = new Set(a);
  return b.filter((id) => wanted.has(id));
}

/** Words of the text index at a time. */
const TERMS_AT_ONCE = 2_000;

const termRow = z.object({ term: z.string(), col: z.enum(TEXT_COLUMNS), doc: sqlInteger });

interface Begun {
  readonly letters: string;
  /** Pulls that have words which begin so, one counted as often as it has such words; by column. */
  readonly counts: Map<TextColumn, number>;
}

/**
 * Walks through all words of the text index, a stretch at a time, and lists what common words begin with, whole words
 * included: that is what a person has typed when looking for them, letter by letter.
 */
export class CommonWords {
  readonly #connection: Connection;
  readonly #pullsMin: number;
  /** The beginnings of the last word, shortest first. */
  #begun: Begun[] = [];
  #next = '';
  readonly #found: { readonly sought: Sought; readonly count: number }[] = [];

  constructor(connection: Connection, pullsMin: number) {
    this.#connection = connection;
    this.#pullsMin = pullsMin;
  }

  /** False once all words have been walked through. */
  goOn(): boolean {
    // The order is the index's own; asked for, all the rest would be sorted for each stretch.
    const rows = allRows(
      this.#connection,
      termRow,
      'SELECT term, col, doc FROM search_words WHERE term >= ? LIMIT ?',
      this.#next,
      TERMS_AT_ONCE,
    );
    const isLast = rows.length < TERMS_AT_ONCE;
    this.#next = rows.at(-1)?.term ?? '';
    // The last word may go on in the next stretch, which begins with it.
    for (const row of rows) if (isLast || row.term !== this.#next) this.#take(row);
    if (isLast) this.#leave(0);
    return !isLast;
  }

  /** The most common first. */
  get found(): readonly Sought[] {
    return this.#found.toSorted((a, b) => b.count - a.count).map(({ sought }) => sought);
  }

  #take({ term, col, doc }: z.output<typeof termRow>): void {
    const letters = Array.from(term);
    let same = 0;
    while (same < this.#begun.length && this.#begun[same]?.letters === letters.slice(0, same + 1).join(''))
      same++;
    this.#leave(same);
    for (let length = same + 1; length <= letters.length; length++)
      this.#begun.push({ letters: letters.slice(0, length).join(''), counts: new Map() });
    for (const { counts } of this.#begun) counts.set(col, (counts.get(col) ?? 0) + doc);
    if (doc < this.#pullsMin) return;
    const whole = { words: [term], isBeginning: false };
    if (isOfProgram(term)) this.#found.push({ sought: { ...whole, column: col }, count: doc });
    else if (letters.length === 1) this.#found.push({ sought: whole, count: doc });
  }

  #leave(from: number): void {
    for (const { letters, counts } of this.#begun.splice(from)) {
      // A single letter is looked for as a word.
      if (letters.length < 2 || isOfProgram(letters)) continue;
      const sought = { words: [letters], isBeginning: true };
      for (const [column, count] of counts)
        if (column !== 'words' && count >= this.#pullsMin)
          this.#found.push({ sought: { ...sought, column }, count });
      const inAll = [...counts.values()].reduce((sum, count) => sum + count, 0);
      if (inAll >= this.#pullsMin) this.#found.push({ sought, count: inAll });
    }
  }
}

/** A word that nobody types: see tokens.ts. */
const isOfProgram = (word: string): boolean => /^[\ue000-\uf8ff]/.test(word);
