/** The readings of one pull as growing columns in core units: what plots and figures of the page read from. */
import type { ReadingColumns } from '../../core/contract/reading.ts';
import type { ChannelQuantity } from '../../core/curve/curve.ts';

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

const NO_COLUMN = new Float64Array(0);

export class CurveColumns {
  /** Readings held, from number 0 on without a hole. */
  length = 0;
  #timeS = new Float64Array(FIRST_ROOM);
  readonly #columns = new Map<Plotted, Float64Array>();
  readonly #extents = new Map<Plotted, { min: number; max: number }>();
  #peakIndex = -1;

  /** Seconds since the record began; NaN beyond the end. */
  timeS(index: number): number {
    return index < this.length ? (this.#timeS[index] ?? Number.NaN) : Number.NaN;
  }

  /** In N, mm, MPa or as a ratio; NaN where the channel gave no value or there is no such channel. */
  value(quantity: Plotted, index: number): number {
    return index < this.length ? (this.#columns.get(quantity)?.[index] ?? Number.NaN) : Number.NaN;
  }

  /** The column itself, for drawing: it has room beyond `length`, and is another array after it has grown. */
  rawColumn(quantity: Plotted | 'time'): Float64Array {
    return quantity === 'time' ? this.#timeS : (this.#columns.get(quantity) ?? NO_COLUMN);
  }

  has(quantity: Plotted): boolean {
    return this.#columns.has(quantity);
  }

  /** Least and largest value so far; null before the first. */
  extent(quantity: Plotted): { readonly min: number; readonly max: number } | null {
    return this.#extents.get(quantity) ?? null;
  }

  /** Reading with the largest force so far; -1 before the first. */
  get peakIndex(): number {
    return this.#peakIndex;
  }

  /**
   * Takes a block that begins at or before the next reading; what is held already is left as it is.
   * False where the block begins later: readings are missing and must be asked for.
   */
  append(block: ReadingColumns): boolean {
    if (block.firstSeq > this.length) return false;
    const skip = this.length - block.firstSeq;
    if (skip >= block.count) return true;
    const oldLength = this.length;
    this.#makeRoom(block.firstSeq + block.count);
    for (let i = skip; i < block.count; i++) {
      this.#timeS[block.firstSeq + i] = (block.elapsedUs[i] ?? Number.NaN) / 1e6;
    }
    this.length = block.firstSeq + block.count;
    for (const quantity of PLOTTED) {
      const channel = block.channels.find((c) => c.quantity === quantity);
      if (channel === undefined) continue;
      const column = this.#column(quantity);
      for (let i = skip; i < block.count; i++) {
        const value = channel.value[i] ?? Number.NaN;
        column[block.firstSeq + i] = value;
        this.#widen(quantity, value, block.firstSeq + i);
      }
    }
    for (const [quantity, column] of this.#columns) {
      if (!block.channels.some((c) => c.quantity === quantity))
        column.fill(Number.NaN, oldLength, this.length);
    }
    return true;
  }

  #widen(quantity: Plotted, value: number, index: number): void {
    if (Number.isNaN(value)) return;
    const extent = this.#extents.get(quantity);
    if (extent === undefined) {
      this.#extents.set(quantity, { min: value, max: value });
      if (quantity === 'force') this.#peakIndex = index;
      return;
    }
    if (value > extent.max) {
      extent.max = value;
      if (quantity === 'force') this.#peakIndex = index;
    }
    if (value < extent.min) extent.min = value;
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
    for (const [quantity, column] of this.#columns) this.#columns.set(quantity, grown(column));
  }
}
