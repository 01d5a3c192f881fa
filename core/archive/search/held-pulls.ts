/**
 * What lists are sorted and filtered by, of every pull, in memory: a column of values each, and the numbers of the pulls
 * in the order of each column. About 130 bytes a pull.
 */
import { z } from 'zod';
import { OUTCOMES } from '../../acceptance/verdict.ts';
import { FRACTURE_PLACES } from '../../contract/record.ts';
import { GEOMETRIES } from '../../contract/search-requests.ts';
import { sqlInteger } from '../sql.ts';
import type { Filters } from './condition.ts';
import { SortedPulls } from './sorted-pulls.ts';
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

const NUMBERS = ['started', 'peak', 'strength'] as const;
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
  #numbers = { started: new Float64Array(0), peak: new Float64Array(0), strength: new Float64Array(0) };
  readonly #texts: Record<(typeof TEXTS)[number], string[]> = { specimen: [], set_name: [], operator: [] };
  /** Texts that many pulls have, once each. */
  readonly #common = new Map<string, string>();
  readonly #orders: Record<OrderColumn, SortedPulls>;
  /** The largest number of a pull. */
  #top = 0;

  constructor() {
    const byNumber = (name: (typeof NUMBERS)[number]) =>
      new SortedPulls((a, b) => (this.#numbers[name][a] ?? 0) - (this.#numbers[name][b] ?? 0) || a - b);
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
    return column === 'started' || column === 'peak' || column === 'strength'
      ? (this.#numbers[column][pullId] ?? 0)
      : (this.#texts[column][pullId] ?? '');
  }

  #set(row: ValueRow): void {
    const id = row.pull_id;
    this.#makeRoom(id);
    this.#flags[id] = flagsOf(row);
    this.#day[id] = row.day;
    for (const name of NUMBERS) this.#numbers[name][id] = row[name];
    this.#texts.specimen[id] = sortedAsBytes(row.specimen);
    for (const name of ['set_name', 'operator'] as const) {
      const text = sortedAsBytes(row[name]);
      if (!this.#common.has(text)) this.#common.set(text, text);
      this.#texts[name][id] = this.#common.get(text) ?? text;
    }
    this.#top = Math.max(this.#top, id);
  }

  #makeRoom(id: number): void {
    if (id < this.#flags.length) return;
    const room = Math.max(1024, id + 1, this.#flags.length * 2);
    this.#flags = grown(this.#flags, new Uint16Array(room));
    this.#day = grown(this.#day, new Int32Array(room));
    for (const name of NUMBERS) this.#numbers[name] = grown(this.#numbers[name], new Float64Array(room));
    // Without holes: an array that has some is looked up slowly.
    for (const name of TEXTS)
      for (let i = this.#texts[name].length; i < room; i++) this.#texts[name].push('');
  }
}

function grown<T extends Uint16Array | Int32Array | Float64Array>(from: T, to: T): T {
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
