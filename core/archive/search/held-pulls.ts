/**
 * What lists are sorted and filtered by, of every pull, in memory: a column of values each, and the numbers of the pulls
 * in the order of each column. About 200 bytes a pull. Texts that many pulls have stand once; a pull holds their place.
 */
import { z } from 'zod';
import { OUTCOMES } from '../../acceptance/verdict.ts';
import { FRACTURE_PLACES } from '../../contract/record.ts';
import { GEOMETRIES } from '../../contract/search-requests.ts';
import { sqlInteger } from '../sql.ts';
import type { Filters } from './condition.ts';
import {
  type OrderKey,
  type Value,
  asSorted,
  compareTexts,
  compareValues,
  comparedValues,
  sortedAsBytes,
} from './found-order.ts';
import { SortedPulls } from './sorted-pulls.ts';
import { bytesOf, numbersOf, textsAsBytes, textsFromBytes } from './saved-pieces.ts';
import { NONE, ORDER_COLUMNS, type OrderColumn, SAID_COLUMNS, VALUE_COLUMNS } from './tables.ts';

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
  yield: z.number(),
  elongation: z.number(),
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
  rules: z.string(),
  base_metal: z.string(),
  filler: z.string(),
  heat: z.string(),
  filler_lot: z.string(),
  welder: z.string(),
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

const NUMBERS = ['started', 'peak', 'strength', 'yield', 'elongation', 'readings'] as const;
/** Small whole numbers. */
const CODES = ['verdict_rank', 'place_rank', 'questionable'] as const;
/** Texts that many pulls have. The other text, the specimen's name, is one of its own for nearly each. */
const COMMON = ['set_name', 'operator', ...SAID_COLUMNS] as const;

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
    yield: new Float64Array(0),
    elongation: new Float64Array(0),
    readings: new Float64Array(0),
  };
  readonly #codes: Record<(typeof CODES)[number], Uint8Array> = {
    verdict_rank: new Uint8Array(0),
    place_rank: new Uint8Array(0),
    questionable: new Uint8Array(0),
  };
  readonly #specimen: string[] = [];
  /** Places among `#texts`. */
  readonly #common: Record<(typeof COMMON)[number], Uint32Array> = {
    set_name: new Uint32Array(0),
    operator: new Uint32Array(0),
    rules: new Uint32Array(0),
    base_metal: new Uint32Array(0),
    filler: new Uint32Array(0),
    heat: new Uint32Array(0),
    filler_lot: new Uint32Array(0),
    welder: new Uint32Array(0),
  };
  /** Only ever made longer: a piece that was saved earlier names places of it. */
  #texts: string[] = [''];
  #placeOfText = new Map<string, number>([['', 0]]);
  readonly #orders: Record<OrderColumn, SortedPulls>;
  /** The largest number of a pull. */
  #top = 0;

  constructor() {
    const byNumber = (name: (typeof NUMBERS)[number]) =>
      new SortedPulls((a, b) => (this.#numbers[name][a] ?? 0) - (this.#numbers[name][b] ?? 0) || a - b);
    const byCode = (name: (typeof CODES)[number]) =>
      new SortedPulls((a, b) => (this.#codes[name][a] ?? 0) - (this.#codes[name][b] ?? 0) || a - b);
    const byText = (name: (typeof COMMON)[number]) =>
      new SortedPulls((a, b) => {
        const [ofA, ofB] = [this.#common[name][a] ?? 0, this.#common[name][b] ?? 0];
        return ofA === ofB ? a - b : compareTexts(this.#texts[ofA] ?? '', this.#texts[ofB] ?? '');
      });
    const specimens = this.#specimen;
    this.#orders = {
      started: byNumber('started'),
      specimen: new SortedPulls((a, b) => compareTexts(specimens[a] ?? '', specimens[b] ?? '') || a - b),
      set_name: byText('set_name'),
      operator: byText('operator'),
      peak: byNumber('peak'),
      strength: byNumber('strength'),
      yield: byNumber('yield'),
      elongation: byNumber('elongation'),
      readings: byNumber('readings'),
      verdict_rank: byCode('verdict_rank'),
      place_rank: byCode('place_rank'),
      questionable: byCode('questionable'),
      rules: byText('rules'),
      base_metal: byText('base_metal'),
      filler: byText('filler'),
      heat: byText('heat'),
      filler_lot: byText('filler_lot'),
      welder: byText('welder'),
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
      ? ORDER_COLUMNS.filter((one) => this.#valueOf(one, id) !== asSorted(row[one]))
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
    yield ['specimen', textsAsBytes(this.#specimen.slice(0, length))];
    for (const name of COMMON) yield [name, bytesOf(this.#common[name].subarray(0, length))];
    for (const name of ORDER_COLUMNS) yield [`order ${name}`, bytesOf(this.#orders[name].ids)];
    // Last: every place that a column names is in it by now.
    yield ['texts', textsAsBytes(this.#texts)];
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
    const specimens = textsFromBytes(pieceOf('specimen'));
    if (!fits(specimens)) return false;
    for (let id = 0; id < length; id++) this.#specimen[id] = specimens[id] ?? '';
    const texts = textsFromBytes(pieceOf('texts'));
    if (texts?.[0] !== '') return false;
    this.#texts = [...texts];
    this.#placeOfText = new Map(texts.map((text, place) => [text, place]));
    for (const name of COMMON) {
      const own = numbersOf(pieceOf(name), Uint32Array)?.subarray(0, length) ?? null;
      if (!fits(own) || own.some((place) => place >= texts.length)) return false;
      this.#common[name].set(own);
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
      ORDER_COLUMNS.every((column) => this.#valueOf(column, id) === asSorted(row[column]))
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
    const found: number[] = [];
    for (const { from, to } of this.#stretches(asked))
      for (let n = 0; n < to - from; n++) {
        const at = descending ? to - 1 - n : from + n;
        const id = ids === null ? at : (ids[at] ?? 0);
        if (!isFitting(id)) continue;
        found.push(id);
        if (found.length === limit) return found;
      }
    return found;
  }

  /** The same of a few pulls, in any order. */
  pageOf(few: readonly number[], { column, descending, after, limit, filters, among }: Asked): number[] {
    const isFitting = this.#tested(filters, among);
    const isBeyond = after === null ? () => true : this.#beyond(column, descending, after);
    const found = few.filter((id) => isFitting(id) && isBeyond(id));
    const way = descending ? -1 : 1;
    if (column === null) found.sort((a, b) => way * (a - b));
    else {
      const [compare, valueOf] = [comparedValues(column, descending), this.#valuesOf(column)];
      found.sort((a, b) => compare(valueOf(a), valueOf(b)) || way * (a - b));
    }
    return found.slice(0, limit);
  }

  /** The places of an order among which the page lies, one behind the other: behind the key, and within a range of what is sorted by. */
  #stretches({ column, descending, after, filters }: Asked): readonly Stretch[] {
    if (column === null) {
      let [from, to] = [0, this.#top + 1];
      if (after !== null && descending) to = Math.min(to, after[1]);
      if (after !== null && !descending) from = after[1] + 1;
      return [{ from, to }];
    }
    const order = this.#orders[column];
    const none = NONE[column];
    // Those that have nothing there are the smallest of the order, and come last.
    const valueOf = this.#valuesOf(column);
    const without = none === null ? 0 : order.countWhere((id) => valueOf(id) === none);
    let [from, to, bare]: [number, number, Stretch] = [without, order.ids.length, { from: 0, to: without }];
    if (after !== null) {
      const compare = this.#comparedWith(column, after);
      const behind = descending
        ? { from: 0, to: order.countWhere((id) => compare(id) < 0) }
        : { from: order.countWhere((id) => compare(id) <= 0), to };
      if (after[0] === none) {
        to = from;
        bare = within(bare, behind);
      } else ({ from, to } = within({ from, to }, behind));
    }
    const { strengthMinMpa: min, strengthMaxMpa: max } = filters;
    if (column !== 'strength' || (min === undefined && max === undefined)) return [{ from, to }, bare];
    const strengths = this.#numbers.strength;
    const range = {
      from: min === undefined ? 0 : order.countWhere((id) => (strengths[id] ?? 0) < min),
      to: max === undefined ? to : order.countWhere((id) => (strengths[id] ?? 0) <= max),
    };
    return [within({ from, to }, range)];
  }

  #compareBy(column: OrderColumn): (a: number, b: number) => number {
    const valueOf = this.#valuesOf(column);
    return (a, b) => compareValues(valueOf(a), valueOf(b)) || a - b;
  }

  #comparedWith(column: OrderColumn, [value, pullId]: OrderKey): (id: number) => number {
    const [key, valueOf] = [asSorted(value), this.#valuesOf(column)];
    return (id) => compareValues(valueOf(id), key) || id - pullId;
  }

  #beyond(
    column: OrderColumn | null,
    descending: boolean,
    [value, pullId]: OrderKey,
  ): (id: number) => boolean {
    const isBeyond = descending ? (id: number) => id < pullId : (id: number) => id > pullId;
    if (column === null) return isBeyond;
    const [compare, key, valueOf] = [
      comparedValues(column, descending),
      asSorted(value),
      this.#valuesOf(column),
    ];
    return (id) => {
      const ofValue = compare(valueOf(id), key);
      return ofValue > 0 || (ofValue === 0 && isBeyond(id));
    };
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
    return this.#valuesOf(column)(pullId);
  }

  /** Good until the next change. */
  #valuesOf(column: OrderColumn): (pullId: number) => Value {
    if (column === 'specimen') return (id) => this.#specimen[id] ?? '';
    if (isOneOf(COMMON, column)) {
      const [texts, places] = [this.#texts, this.#common[column]];
      return (id) => texts[places[id] ?? 0] ?? '';
    }
    const values = isOneOf(NUMBERS, column) ? this.#numbers[column] : this.#codes[column];
    return (id) => values[id] ?? 0;
  }

  #set(row: ValueRow): void {
    const id = row.pull_id;
    this.#makeRoom(id);
    this.#flags[id] = flagsOf(row);
    this.#day[id] = row.day;
    for (const name of NUMBERS) this.#numbers[name][id] = row[name];
    for (const name of CODES) this.#codes[name][id] = row[name];
    this.#specimen[id] = sortedAsBytes(row.specimen);
    for (const name of COMMON) this.#common[name][id] = this.#place(sortedAsBytes(row[name]));
    this.#top = Math.max(this.#top, id);
  }

  #place(text: string): number {
    const known = this.#placeOfText.get(text);
    if (known !== undefined) return known;
    const place = this.#texts.push(text) - 1;
    this.#placeOfText.set(text, place);
    return place;
  }

  #makeRoom(id: number): void {
    if (id < this.#flags.length) return;
    const room = Math.max(1024, id + 1, this.#flags.length * 2);
    this.#flags = grown(this.#flags, new Uint16Array(room));
    this.#day = grown(this.#day, new Int32Array(room));
    for (const name of NUMBERS) this.#numbers[name] = grown(this.#numbers[name], new Float64Array(room));
    for (const name of CODES) this.#codes[name] = grown(this.#codes[name], new Uint8Array(room));
    for (const name of COMMON) this.#common[name] = grown(this.#common[name], new Uint32Array(room));
    // Without holes: an array that has some is looked up slowly.
    for (let i = this.#specimen.length; i < room; i++) this.#specimen.push('');
  }
}

/** Places of an order, the last not included. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

const within = (a: Stretch, b: Stretch): Stretch => ({
  from: Math.max(a.from, b.from),
  to: Math.min(a.to, b.to),
});

const isOneOf = <T extends string>(names: readonly T[], name: string): name is T =>
  names.some((one) => one === name);

function grown<T extends Uint8Array | Uint16Array | Int32Array | Uint32Array | Float64Array>(
  from: T,
  to: T,
): T {
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
