/**
 * What lists are sorted and filtered by, of every pull, in memory: a column of values each, and the numbers of the pulls
 * in the order of each column. About 160 bytes a pull.
 */
import { z } from 'zod';
import { OUTCOMES } from '../../acceptance/verdict.ts';
import { FRACTURE_PLACES } from '../../contract/record.ts';
import { GEOMETRIES } from '../../contract/search-requests.ts';
import { sqlInteger } from '../sql.ts';
import type { Filters } from './condition.ts';
import { SortedPulls } from './sorted-pulls.ts';
import { bytesOf, numbersOf, textsAsBytes, textsFromBytes } from './saved-pieces.ts';
import { ORDER_COLUMNS, VALUE_COLUMNS } from './tables.ts';

export type OrderColumn = (typeof ORDER_COLUMNS)[number];
export type Value = string | number;

/** Of `search_value`. */
export const VALUE_SELECT = `SELECT ${VALUE_COLUMNS.join(', ')} FROM search_value`;
export const valueRow = z.object({
  pull_id: sqlInteger,
  started: z.number(),
  specimen: z.string(),
  set_name: z.string(),
  operator: z.string(),
  peak: z.number(),
  strength: z.number(),
  readings: sqlInteger,
  verdict_rank: sqlInteger,
  place_rank: sqlInteger,
  day: sqlInteger,
  geometry: z.string(),
  place: z.string().nullable(),
  verdict: z.string().nullable(),
  interrupted: sqlInteger,
  voided: sqlInteger,
  questionable: sqlInteger,
});
export type ValueRow = z.output<typeof valueRow>;

const PRESENT = 1;
const INTERRUPTED = 2;
const VOIDED = 4;
const QUESTIONABLE = 8;
/** Each in four bits of its own: its place in the list, from 1; none or another is 0. */
const LISTS = {
  geometry: { values: GEOMETRIES as readonly string[], shift: 4 },
  place: { values: FRACTURE_PLACES as readonly string[], shift: 8 },
  verdict: { values: OUTCOMES as readonly string[], shift: 12 },
} as const;
const FOUR_BITS = 15;

type ListName = keyof typeof LISTS;
const codeOf = (name: ListName, value: string | null): number =>
  (value === null ? 0 : LISTS[name].values.indexOf(value) + 1) << LISTS[name].shift;

const flagsOf = (row: ValueRow): number =>
  PRESENT |
  (row.interrupted === 1 ? INTERRUPTED : 0) |
  (row.voided === 1 ? VOIDED : 0) |
  (row.questionable === 1 ? QUESTIONABLE : 0) |
  codeOf('geometry', row.geometry) |
  codeOf('place', row.place) |
  codeOf('verdict', row.verdict);

const NUMBERS = ['started', 'peak', 'strength', 'readings'] as const;
/** Small whole numbers. */
const CODES = ['verdict_rank', 'place_rank', 'questionable'] as const;
const TEXTS = ['specimen', 'set_name', 'operator'] as const;

/** Behind which pull a page begins, by its value and number. */
export type OrderKey = readonly [value: Value, pullId: number];

export interface Asked {
  /** Null: by number. */
  readonly column: OrderColumn | null;
  readonly descending: boolean;
  readonly after: OrderKey | null;
  readonly limit: number;
  readonly filters: Filters;
  /** A bit for each pull that may be found; null where any may. */
  readonly among: Uint32Array | null;
}

export class HeldPulls {
  #flags = new Uint16Array(0);
  #day = new Int32Array(0);
  readonly #numbers: Record<(typeof NUMBERS)[number], Float64Array> = {
    started: new Float64Array(0),
    peak: new Float64Array(0),
    strength: new Float64Array(0),
    readings: new Float64Array(0),
  };
  readonly #codes: Record<(typeof CODES)[number], Uint8Array> = {
    verdict_rank: new Uint8Array(0),
    place_rank: new Uint8Array(0),
    questionable: new Uint8Array(0),
  };
  readonly #texts: Record<(typeof TEXTS)[number], string[]> = { specimen: [], set_name: [], operator: [] };
  /** Texts that many pulls have, once each. */
  readonly #commonTexts = new Map<string, string>();
  readonly #orders: Record<OrderColumn, SortedPulls>;
  /** The largest number of a pull. */
  #top = 0;

  constructor() {
    const byNumber = (name: (typeof NUMBERS)[number]) =>
      new SortedPulls((a, b) => (this.#numbers[name][a] ?? 0) - (this.#numbers[name][b] ?? 0) || a - b);
    const byCode = (name: (typeof CODES)[number]) =>
      new SortedPulls((a, b) => (this.#codes[name][a] ?? 0) - (this.#codes[name][b] ?? 0) || a - b);
    const byText = (name: (typeof TEXTS)[number]) => {
      const texts = this.#texts[name];
      return new SortedPulls((a, b) => compareTexts(texts[a] ?? '', texts[b] ?? '') || a - b);
    };
    this.#orders = {
      started: byNumber('started'),
      specimen: byText('specimen'),
      set_name: byText('set_name'),
      operator: byText('operator'),
      peak: byNumber('peak'),
      strength: byNumber('strength'),
      readings: byNumber('readings'),
      verdict_rank: byCode('verdict_rank'),
      place_rank: byCode('place_rank'),
      questionable: byCode('questionable'),
    };
  }

  get top(): number {
    return this.#top;
  }

  /** Pulls that it does not hold yet. */
  addAll(rows: readonly ValueRow[]): void {
    for (const row of rows) this.#set(row);
    const ids = rows.map((row) => row.pull_id);
    for (const column of ORDER_COLUMNS) this.#orders[column].addAll(ids);
  }

  /** One that came or changed. */
  put(row: ValueRow): void {
    const id = row.pull_id;
    const moved = this.#holds(id)
      ? ORDER_COLUMNS.filter((one) => this.#valueOf(one, id) !== keyOf(row[one]))
      : ORDER_COLUMNS;
    if (this.#holds(id)) for (const column of moved) this.#orders[column].remove(id);
    this.#set(row);
    for (const column of moved) this.#orders[column].add(id);
  }

  remove(pullId: number): void {
    if (!this.#holds(pullId)) return;
    for (const column of ORDER_COLUMNS) this.#orders[column].remove(pullId);
    this.#flags[pullId] = 0;
  }

  /** All of it in pieces of a few bytes a pull, each made when it is asked for. */
  *pieces(): Generator<readonly [name: string, body: Uint8Array]> {
    const length = this.#top + 1;
    yield ['flags', bytesOf(this.#flags.subarray(0, length))];
    yield ['day', bytesOf(this.#day.subarray(0, length))];
    for (const name of NUMBERS) yield [name, bytesOf(this.#numbers[name].subarray(0, length))];
    for (const name of CODES) yield [name, bytesOf(this.#codes[name].subarray(0, length))];
    for (const name of TEXTS) yield [name, textsAsBytes(this.#texts[name].slice(0, length))];
    for (const name of ORDER_COLUMNS) yield [`order ${name}`, bytesOf(this.#orders[name].ids)];
  }

  /**
   * Takes over pieces that were made earlier, one after the other while others may have changed a pull; `without` are all
   * pulls that were changed since the first was made: they are left out. False where a piece is none of these.
   */
  takeOver(pieceOf: (name: string) => Uint8Array | null, without: ReadonlySet<number>): boolean {
    const flags = numbersOf(pieceOf('flags'), Uint16Array);
    if (flags === null || flags.length === 0) return false;
    const length = flags.length;
    // A pull that came while they were made stands in the later ones only.
    const fits = <T extends { readonly length: number }>(one: T | null): one is T =>
      one !== null && one.length >= length;
    this.#makeRoom(length - 1);
    const day = numbersOf(pieceOf('day'), Int32Array);
    if (!fits(day)) return false;
    this.#day.set(day.subarray(0, length));
    for (const name of NUMBERS) {
      const own = numbersOf(pieceOf(name), Float64Array);
      if (!fits(own)) return false;
      this.#numbers[name].set(own.subarray(0, length));
    }
    for (const name of CODES) {
      const own = pieceOf(name);
      if (!fits(own)) return false;
      this.#codes[name].set(own.subarray(0, length));
    }
    for (const name of TEXTS) {
      const own = textsFromBytes(pieceOf(name));
      if (!fits(own)) return false;
      for (let id = 0; id < length; id++)
        this.#texts[name][id] = name === 'specimen' ? (own[id] ?? '') : this.#common(own[id] ?? '');
    }
    for (const id of without) if (id < length) flags[id] = 0;
    const count = flags.reduce((sum, one) => sum + (one & PRESENT), 0);
    for (const name of ORDER_COLUMNS) {
      const ids = numbersOf(pieceOf(`order ${name}`), Uint32Array)?.filter(
        (id) => ((flags[id] ?? 0) & PRESENT) !== 0,
      );
      if (ids?.length !== count) return false;
      this.#orders[name].take(ids);
    }
    this.#flags.set(flags);
    this.#top = length - 1;
    return true;
  }

  /** Whether each order holds the same pulls in the order of their values. */
  get isInOrder(): boolean {
    return ORDER_COLUMNS.every((column) => {
      const compare = this.#compareBy(column);
      const { ids } = this.#orders[column];
      return ids.every((id, i) => this.#holds(id) && (i === 0 || compare(ids[i - 1] ?? 0, id) < 0));
    });
  }

  /** Whether it holds a pull, and with these values. */
  agreesWith(row: ValueRow): boolean {
    const id = row.pull_id;
    return (
      this.#flags[id] === flagsOf(row) &&
      this.#day[id] === row.day &&
      ORDER_COLUMNS.every((column) => this.#valueOf(column, id) === keyOf(row[column]))
    );
  }

  get count(): number {
    return this.#orders.started.ids.length;
  }

  /** The pulls of one page, in order. */
  page(asked: Asked): number[] {
    const { column, descending, limit, filters, among } = asked;
    const isFitting = this.#tested(filters, among);
    const ids = column === null ? null : this.#orders[column].ids;
    const { from, to } = this.#stretch(asked);
    const found: number[] = [];
    for (let n = 0; n < to - from; n++) {
      const at = descending ? to - 1 - n : from + n;
      const id = ids === null ? at : (ids[at] ?? 0);
      if (!isFitting(id)) continue;
      found.push(id);
      if (found.length === limit) break;
    }
    return found;
  }

  /** The same of a few pulls, in any order. */
  pageOf(few: readonly number[], { column, descending, after, limit, filters, among }: Asked): number[] {
    const isFitting = this.#tested(filters, among);
    const compare = this.#compareBy(column);
    const isBeyond = after === null ? () => true : this.#beyond(column, descending, after);
    const found = few.filter((id) => isFitting(id) && isBeyond(id));
    found.sort(descending ? (a, b) => compare(b, a) : compare);
    return found.slice(0, limit);
  }

  /** The places of an order among which the page lies: behind the key, and within a range of what is sorted by. */
  #stretch({ column, descending, after, filters }: Asked): { readonly from: number; readonly to: number } {
    let [from, to] = [0, this.#top + 1];
    if (column === null) {
      if (after !== null && descending) to = Math.min(to, after[1]);
      if (after !== null && !descending) from = after[1] + 1;
      return { from, to };
    }
    const order = this.#orders[column];
    to = order.ids.length;
    if (after !== null) {
      const compare = this.#comparedWith(column, after);
      if (descending) to = order.countWhere((id) => compare(id) < 0);
      else from = order.countWhere((id) => compare(id) <= 0);
    }
    const { strengthMinMpa: min, strengthMaxMpa: max } = filters;
    const strengths = this.#numbers.strength;
    if (column === 'strength' && min !== undefined)
      from = Math.max(
        from,
        order.countWhere((id) => (strengths[id] ?? 0) < min),
      );
    if (column === 'strength' && max !== undefined)
      to = Math.min(
        to,
        order.countWhere((id) => (strengths[id] ?? 0) <= max),
      );
    return { from, to };
  }

  #compareBy(column: OrderColumn | null): (a: number, b: number) => number {
    if (column === null) return (a, b) => a - b;
    return (a, b) => compareValues(this.#valueOf(column, a), this.#valueOf(column, b)) || a - b;
  }

  #comparedWith(column: OrderColumn | null, [value, pullId]: OrderKey): (id: number) => number {
    if (column === null) return (id) => id - pullId;
    const key = keyOf(value);
    return (id) => compareValues(this.#valueOf(column, id), key) || id - pullId;
  }

  #beyond(column: OrderColumn | null, descending: boolean, after: OrderKey): (id: number) => boolean {
    const compare = this.#comparedWith(column, after);
    return descending ? (id) => compare(id) < 0 : (id) => compare(id) > 0;
  }

  #tested(filters: Filters, among: Uint32Array | null): (id: number) => boolean {
    const [flags, days, strengths] = [this.#flags, this.#day, this.#numbers.strength];
    const { mask, wanted } = masked(filters);
    const { fromDay = -Infinity, toDay = Infinity } = filters;
    const { strengthMinMpa = -Infinity, strengthMaxMpa = Infinity } = filters;
    const hasDays = filters.fromDay !== undefined || filters.toDay !== undefined;
    const hasStrengths = filters.strengthMinMpa !== undefined || filters.strengthMaxMpa !== undefined;
    return (id) => {
      if (among !== null && (((among[id >>> 5] ?? 0) >>> (id & 31)) & 1) === 0) return false;
      if (((flags[id] ?? 0) & mask) !== wanted) return false;
      const day = days[id] ?? 0;
      if (hasDays && !(day >= fromDay && day <= toDay)) return false;
      if (!hasStrengths) return true;
      const strength = strengths[id] ?? 0;
      return strength >= strengthMinMpa && strength <= strengthMaxMpa;
    };
  }

  #holds(pullId: number): boolean {
    return ((this.#flags[pullId] ?? 0) & PRESENT) !== 0;
  }

  #valueOf(column: OrderColumn, pullId: number): Value {
    if (isOneOf(TEXTS, column)) return this.#texts[column][pullId] ?? '';
    return (isOneOf(NUMBERS, column) ? this.#numbers[column] : this.#codes[column])[pullId] ?? 0;
  }

  #set(row: ValueRow): void {
    const id = row.pull_id;
    this.#makeRoom(id);
    this.#flags[id] = flagsOf(row);
    this.#day[id] = row.day;
    for (const name of NUMBERS) this.#numbers[name][id] = row[name];
    for (const name of CODES) this.#codes[name][id] = row[name];
    this.#texts.specimen[id] = sortedAsBytes(row.specimen);
    for (const name of ['set_name', 'operator'] as const)
      this.#texts[name][id] = this.#common(sortedAsBytes(row[name]));
    this.#top = Math.max(this.#top, id);
  }

  #common(text: string): string {
    const known = this.#commonTexts.get(text);
    if (known !== undefined) return known;
    this.#commonTexts.set(text, text);
    return text;
  }

  #makeRoom(id: number): void {
    if (id < this.#flags.length) return;
    const room = Math.max(1024, id + 1, this.#flags.length * 2);
    this.#flags = grown(this.#flags, new Uint16Array(room));
    this.#day = grown(this.#day, new Int32Array(room));
    for (const name of NUMBERS) this.#numbers[name] = grown(this.#numbers[name], new Float64Array(room));
    for (const name of CODES) this.#codes[name] = grown(this.#codes[name], new Uint8Array(room));
    // Without holes: an array that has some is looked up slowly.
    for (const name of TEXTS)
      for (let i = this.#texts[name].length; i < room; i++) this.#texts[name].push('');
  }
}

const isOneOf = <T extends string>(names: readonly T[], name: string): name is T =>
  names.some((one) => one === name);

function grown<T extends Uint8Array | Uint16Array | Int32Array | Float64Array>(from: T, to: T): T {
  to.set(from);
  return to;
}

function masked(filters: Filters): { readonly mask: number; readonly wanted: number } {
  let [mask, wanted] = [PRESENT, PRESENT];
  const flag = (bit: number, value: boolean | undefined): void => {
    if (value === undefined) return;
    mask |= bit;
    if (value) wanted |= bit;
  };
  flag(INTERRUPTED, filters.interrupted);
  flag(VOIDED, filters.voided);
  flag(QUESTIONABLE, filters.questionable);
  for (const name of ['geometry', 'place', 'verdict'] as const) {
    const value = filters[name];
    if (value === undefined) continue;
    mask |= FOUR_BITS << LISTS[name].shift;
    wanted |= codeOf(name, value);
  }
  return { mask, wanted };
}

const keyOf = (value: Value): Value => (typeof value === 'string' ? sortedAsBytes(value) : value);

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function compareValues(a: Value, b: Value): number {
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  return compareTexts(String(a), String(b));
}

const HIGH_UNIT = /[\ud800-\uffff]/;

/**
 * A text that stands where the database puts the given one: by bytes of UTF-8, which is by code points. Pairs of
 * surrogates, which come before the last of the single ones, are put behind them.
 */
export function sortedAsBytes(text: string): string {
  if (!HIGH_UNIT.test(text)) return text;
  let sorted = '';
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    sorted += String.fromCharCode(unit >= 0xe000 ? unit - 0x800 : unit >= 0xd800 ? unit + 0x2000 : unit);
  }
  return sorted;
}
