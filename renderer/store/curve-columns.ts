/** The readings of one pull as growing columns in core units: what plots and figures of the page read from. */
import type { ChannelColumns, ReadingColumns } from '../../core/contract/reading.ts';
import type { ChannelQuantity } from '../../core/curve/curve.ts';
import { DRAWN_AFTER_LOAD_S, LOADED_PART } from '../../core/curve/drawn-length.ts';
import {
  LONE_PART,
  NO_PEAK,
  type Peak,
  READINGS_TO_TELL_MIN,
  watchedPeak,
} from '../../core/pull/lone-peak.ts';

/** Columns begin with room for this many readings and double when full. */
const FIRST_ROOM = 4096;

/** Quantities that a plot is drawn from; of several channels of one quantity the first counts. */
export const PLOTTED = [
  'force',
  'extension',
  'travel',
  'stress',
  'strain',
] as const satisfies readonly ChannelQuantity[];
export type Plotted = (typeof PLOTTED)[number];

/** What is taken of a block of readings. */
export interface CurveBlock extends Pick<ReadingColumns, 'firstSeq' | 'count' | 'elapsedUs'> {
  readonly channels: readonly Pick<ChannelColumns, 'quantity' | 'value'>[];
}

const NO_COLUMN = new Float64Array(0);

export class CurveColumns {
  /** Readings held, from number 0 on without a hole. */
  length = 0;
  #timeS = new Float64Array(FIRST_ROOM);
  /** The time that stands in the readings themselves, held only as long as all of them came at once. */
  #ownTimeS: Float64Array | null = new Float64Array(FIRST_ROOM).fill(Number.NaN);
  #isOfFile = false;
  readonly #columns = new Map<Plotted, Float64Array>();
  readonly #underLoad = new Extents();
  /** Of the readings behind DRAWN_AFTER_LOAD_S; when load comes again they lie under load too. */
  readonly #afterwards = new Extents();
  #largest = -1;
  #peak = NO_PEAK;
  #lastLoaded = -1;

  /** Seconds since the record began, or as the file says them; NaN beyond the end. */
  timeS(index: number): number {
    return index < this.length ? (this.#shownTimeS[index] ?? Number.NaN) : Number.NaN;
  }

  /** The readings were taken over from a file: they came all at once, so that their time is the one in its rows. */
  countByFile(): void {
    this.#isOfFile = true;
  }

  get #shownTimeS(): Float64Array {
    return this.#isOfFile && this.#ownTimeS !== null ? this.#ownTimeS : this.#timeS;
  }

  /** In N, mm, MPa or as a ratio; NaN where the channel gave no value or there is no such channel. */
  value(quantity: Plotted, index: number): number {
    return index < this.length ? (this.#columns.get(quantity)?.[index] ?? Number.NaN) : Number.NaN;
  }

  /** The column itself, for drawing: it has room beyond `length`, and is another array after it has grown. */
  rawColumn(quantity: Plotted | 'time'): Float64Array {
    return quantity === 'time' ? this.#shownTimeS : (this.#columns.get(quantity) ?? NO_COLUMN);
  }

  has(quantity: Plotted): boolean {
    return this.#columns.has(quantity);
  }

  /**
   * Least and largest value so far, null before the first. `drawn` leaves out what came later than
   * DRAWN_AFTER_LOAD_S after the last load.
   */
  extent(quantity: Plotted, which: 'all' | 'drawn' = 'all'): Extent | null {
    const underLoad = this.#underLoad.of(quantity);
    const afterwards = which === 'drawn' ? null : this.#afterwards.of(quantity);
    return joined(underLoad, afterwards);
  }

  /** Readings up to DRAWN_AFTER_LOAD_S after the last load: what a picture of a broken pull shows. */
  get drawnLength(): number {
    if (this.#lastLoaded < 0) return this.length;
    const endS = this.timeS(this.#lastLoaded) + DRAWN_AFTER_LOAD_S;
    let low = this.#lastLoaded;
    let high = this.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.timeS(middle) <= endS) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** Reading of the largest force so far by the rule of core/pull/lone-peak.ts; -1 before the first. */
  get peakIndex(): number {
    return this.length < READINGS_TO_TELL_MIN ? this.#largest : (this.#peak.sure?.seq ?? -1);
  }

  /**
   * The record's own peak. What stood higher before it stood there before a zero was taken (core/pull/zero-taken.ts),
   * and is no load of this pull.
   */
  heedPeakOfRecord(peakSeq: number): void {
    const stale = this.peakIndex;
    if (stale < 0 || stale >= peakSeq || peakSeq >= this.length) return;
    if (this.value('force', stale) <= this.value('force', peakSeq)) return;
    this.#largest = -1;
    this.#peak = NO_PEAK;
    for (let reading = peakSeq; reading < this.length; reading++) this.#watch(reading);
  }

  /**
   * Takes a block that begins at or before the next reading; what is held already is left as it is.
   * False where the block begins later: readings are missing and must be asked for.
   */
  append(block: CurveBlock): boolean {
    if (block.firstSeq > this.length) return false;
    const skip = this.length - block.firstSeq;
    if (skip >= block.count) return true;
    const oldLength = this.length;
    this.#makeRoom(block.firstSeq + block.count);
    for (let i = skip; i < block.count; i++) {
      this.#timeS[block.firstSeq + i] = (block.elapsedUs[i] ?? Number.NaN) / 1e6;
    }
    this.#holdOwnTime(block, skip);
    this.length = block.firstSeq + block.count;
    for (const quantity of PLOTTED) {
      const channel = block.channels.find((c) => c.quantity === quantity);
      if (channel === undefined) continue;
      const column = this.#column(quantity);
      for (let i = skip; i < block.count; i++) column[block.firstSeq + i] = channel.value[i] ?? Number.NaN;
    }
    for (const [quantity, column] of this.#columns) {
      if (!block.channels.some((c) => c.quantity === quantity))
        column.fill(Number.NaN, oldLength, this.length);
    }
    for (let reading = oldLength; reading < this.length; reading++) this.#look(reading);
    return true;
  }

  #holdOwnTime(block: CurveBlock, skip: number): void {
    if (this.#ownTimeS === null) return;
    const clock = block.channels.find((channel) => channel.quantity === 'time');
    if (clock === undefined || block.elapsedUs.some((us) => us > 0)) {
      this.#ownTimeS = null;
      return;
    }
    for (let i = skip; i < block.count; i++)
      this.#ownTimeS[block.firstSeq + i] = clock.value[i] ?? Number.NaN;
  }

  /** Peak, last load and extents with one reading more. */
  #look(reading: number): void {
    const forceN = this.value('force', reading);
    const before = this.#peak;
    this.#watch(reading);
    if (forceN > 0 && forceN >= LOADED_PART * this.value('force', this.peakIndex)) {
      this.#lastLoaded = reading;
      this.#underLoad.take(this.#afterwards);
    }
    const isDrawn =
      this.#lastLoaded < 0 || this.timeS(reading) <= this.timeS(this.#lastLoaded) + DRAWN_AFTER_LOAD_S;
    const extents = isDrawn ? this.#underLoad : this.#afterwards;
    for (const quantity of this.#columns.keys())
      if (quantity !== 'force') extents.widen(quantity, this.value(quantity, reading));
    this.#widenForce(extents, before.doubtful, reading);
  }

  #watch(reading: number): void {
    const forceN = this.value('force', reading);
    if (forceN > this.value('force', this.#largest) || (this.#largest < 0 && !Number.isNaN(forceN)))
      this.#largest = reading;
    this.#peak = watchedPeak(this.#peak, { seq: reading, elapsedUs: 0, forceN }, LONE_PART);
  }

  /** A garbled reading must not press the whole curve flat: it widens the axis only once it is confirmed. */
  #widenForce(extents: Extents, doubtful: Peak | null, reading: number): void {
    const { sure } = this.#peak;
    if (doubtful !== null && sure !== null && sure.forceN >= doubtful.forceN)
      extents.widen('force', doubtful.forceN);
    if (reading < READINGS_TO_TELL_MIN || this.#peak.doubtful?.seq !== reading)
      extents.widen('force', this.value('force', reading));
  }

  #column(quantity: Plotted): Float64Array {
    let column = this.#columns.get(quantity);
    if (column === undefined) {
      // Readings from before the channel appeared have no value of it.
      column = new Float64Array(this.#timeS.length).fill(Number.NaN);
      this.#columns.set(quantity, column);
    }
    return column;
  }

  #makeRoom(length: number): void {
    if (length <= this.#timeS.length) return;
    let room = this.#timeS.length;
    while (room < length) room *= 2;
    const grown = (from: Float64Array): Float64Array<ArrayBuffer> => {
      const to = new Float64Array(room);
      to.set(from);
      return to;
    };
    this.#timeS = grown(this.#timeS);
    if (this.#ownTimeS !== null) this.#ownTimeS = grown(this.#ownTimeS);
    for (const [quantity, column] of this.#columns) this.#columns.set(quantity, grown(column));
  }
}

export interface Extent {
  readonly min: number;
  readonly max: number;
}

class Extents {
  readonly #of = new Map<Plotted, { min: number; max: number }>();

  of(quantity: Plotted): Extent | null {
    return this.#of.get(quantity) ?? null;
  }

  widen(quantity: Plotted, value: number): void {
    if (Number.isNaN(value)) return;
    const extent = this.#of.get(quantity);
    if (extent === undefined) {
      this.#of.set(quantity, { min: value, max: value });
      return;
    }
    if (value > extent.max) extent.max = value;
    if (value < extent.min) extent.min = value;
  }

  /** Takes over what the other holds, which is empty then. */
  take(other: Extents): void {
    for (const [quantity, { min, max }] of other.#of) {
      this.widen(quantity, min);
      this.widen(quantity, max);
    }
    other.#of.clear();
  }
}

function joined(a: Extent | null, b: Extent | null): Extent | null {
  if (a === null || b === null) return a ?? b;
  return { min: Math.min(a.min, b.min), max: Math.max(a.max, b.max) };
}
