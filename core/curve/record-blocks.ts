/**
 * What each stretch of readings holds, found in one pass over load and extension: extremes and area.
 * Everything that is asked of the whole record later (where a load is reached, the largest of a range, the energy, a
 * jump of the extension) is answered from these and the few stretches that matter, so that an evaluation of millions
 * of readings costs little more than reading them once. Only what is asked for is kept: each figure costs time.
 */
import type { IndexRange } from './channel.ts';

/** Small enough that looking through one costs nothing, large enough that there are few. */
export const BLOCK_READINGS = 256;

export interface ColumnBlocks {
  readonly column: Float64Array;
  /** No reading of the stretch is above this. For the load it is the largest reading; −Infinity where there is none. */
  readonly largest: Float64Array;
}

/**
 * Of a creeping channel full of noise the extremes are dear to keep (every other comparison goes the other way). That
 * all readings of a stretch lie within a small width of its first is told for nothing: then the bounds are first ±
 * width, else they are infinite and the stretch must be looked through.
 */
export interface ExtensionBlocks extends ColumnBlocks {
  /** No reading of the stretch is below this. */
  readonly smallest: Float64Array;
}

export interface RecordBlocks {
  readonly load: ColumnBlocks;
  readonly extension?: ExtensionBlocks;
  /**
   * Twice the area under load over extension, the step into the stretch included. NaN where a reading of either is
   * absent; without extension the sum of the load, which tells the same.
   */
  readonly twiceArea: Float64Array;
}

/** `width`: in the extension column's unit. */
export function recordBlocks(
  load: Float64Array,
  extension: Float64Array | undefined,
  width: number,
): RecordBlocks {
  const count = Math.ceil(load.length / BLOCK_READINGS);
  const loadBlocks: ColumnBlocks = { column: load, largest: new Float64Array(count) };
  const twiceArea = new Float64Array(count);
  if (extension === undefined) {
    for (let k = 0; k < count; k++) lookAtLoad(loadBlocks, twiceArea, k);
    return { load: loadBlocks, twiceArea };
  }
  const extensionBlocks: ExtensionBlocks = {
    column: extension,
    smallest: new Float64Array(count),
    largest: new Float64Array(count),
  };
  for (let k = 0; k < count; k++) lookAtBoth(loadBlocks, extensionBlocks, twiceArea, width, k);
  return { load: loadBlocks, extension: extensionBlocks, twiceArea };
}

function lookAtLoad({ column, largest }: ColumnBlocks, sums: Float64Array, k: number): void {
  const to = Math.min(column.length, (k + 1) * BLOCK_READINGS);
  let high = -Infinity;
  let total = 0;
  for (let i = k * BLOCK_READINGS; i < to; i++) {
    const y = column[i] as number;
    if (y > high) high = y;
    total += y;
  }
  largest[k] = high;
  sums[k] = total;
}

function lookAtBoth(
  load: ColumnBlocks,
  extension: ExtensionBlocks,
  twiceArea: Float64Array,
  width: number,
  k: number,
): void {
  const ys = load.column;
  const xs = extension.column;
  const from = k * BLOCK_READINGS;
  const to = Math.min(ys.length, from + BLOCK_READINGS);
  const before = from === 0 ? 0 : from - 1;
  let x0 = xs[before] as number;
  let y0 = ys[before] as number;
  const first = xs[from] as number;
  const above = first + width;
  const below = first - width;
  let outside = false;
  let highY = -Infinity;
  // Two readings at a time, into two sums: no addition waits for the one before. A fifth less time.
  let area = 0;
  let areaBetween = 0;
  let i = from;
  for (; i + 1 < to; i += 2) {
    const y = ys[i] as number;
    const x = xs[i] as number;
    const nextY = ys[i + 1] as number;
    const nextX = xs[i + 1] as number;
    if (y > highY) highY = y;
    if (nextY > highY) highY = nextY;
    if (x > above || x < below || nextX > above || nextX < below) outside = true;
    area += (x - x0) * (y + y0);
    areaBetween += (nextX - x) * (nextY + y);
    x0 = nextX;
    y0 = nextY;
  }
  if (i < to) {
    const y = ys[i] as number;
    const x = xs[i] as number;
    if (y > highY) highY = y;
    if (x > above || x < below) outside = true;
    area += (x - x0) * (y + y0);
  }
  load.largest[k] = highY;
  const steady = !outside && first === first;
  extension.smallest[k] = steady ? below : -Infinity;
  extension.largest[k] = steady ? above : Infinity;
  twiceArea[k] = area + areaBetween;
}

const blockOf = (index: number): number => Math.floor(index / BLOCK_READINGS);

/** The first reading of the range that is at least `limit`; `range.to` if none is. */
export function firstAtLeast(blocks: ColumnBlocks, { from, to }: IndexRange, limit: number): number {
  const { column, largest } = blocks;
  let i = from;
  while (i < to) {
    const k = blockOf(i);
    const end = Math.min(to, (k + 1) * BLOCK_READINGS);
    if ((largest[k] as number) >= limit) for (; i < end; i++) if ((column[i] as number) >= limit) return i;
    i = end;
  }
  return to;
}

/** The last reading of the range that is at least `limit`; `range.from − 1` if none is. */
export function lastAtLeast(blocks: ColumnBlocks, { from, to }: IndexRange, limit: number): number {
  const { column, largest } = blocks;
  let i = to - 1;
  while (i >= from) {
    const k = blockOf(i);
    const start = Math.max(from, k * BLOCK_READINGS);
    if ((largest[k] as number) >= limit) for (; i >= start; i--) if ((column[i] as number) >= limit) return i;
    i = start - 1;
  }
  return from - 1;
}

/** The first of the largest readings of a range, for blocks whose `largest` is a reading; −1 where none is there. */
export function largestIndex(blocks: ColumnBlocks, { from, to }: IndexRange): number {
  const { column, largest } = blocks;
  let top = -Infinity;
  let i = from;
  while (i < to) {
    const k = blockOf(i);
    const end = Math.min(to, (k + 1) * BLOCK_READINGS);
    if (i % BLOCK_READINGS === 0 && end === (k + 1) * BLOCK_READINGS) {
      if ((largest[k] as number) > top) top = largest[k] as number;
    } else for (; i < end; i++) if ((column[i] as number) > top) top = column[i] as number;
    i = end;
  }
  return top === -Infinity ? -1 : firstAtLeast(blocks, { from, to }, top);
}

/** Readings of the load that are there. */
export function presentCount({ load, twiceArea }: RecordBlocks, { from, to }: IndexRange): number {
  let present = 0;
  let i = from;
  while (i < to) {
    const k = blockOf(i);
    const end = Math.min(to, (k + 1) * BLOCK_READINGS);
    if (Number.isNaN(twiceArea[k])) {
      for (; i < end; i++) if (!Number.isNaN(load.column[i])) present += 1;
    } else present += end - i;
    i = end;
  }
  return present;
}
