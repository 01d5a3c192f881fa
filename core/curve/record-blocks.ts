/**
 * What each stretch of readings holds, found in one pass over load and extension: extremes and area.
 * Everything that is asked of the whole record later (where a load is reached, the largest of a range, the energy, a
 * jump of the extension) is answered from these and the few stretches that matter, so that an evaluation of millions
 * of readings costs little more than reading them once. Only what is asked for is kept: each figure costs time.
 */
import type { IndexRange } from './channel.ts';

/** Small enough that looking through one costs nothing, large enough that there are few. */
export const BLOCK_READINGS = 1_024;

export interface ColumnBlocks {
  readonly column: Float64Array;
  /** Of the readings that are there; −Infinity in a stretch without any. */
  readonly largest: Float64Array;
}

export interface ExtensionBlocks extends ColumnBlocks {
  /** +Infinity in a stretch without any reading. */
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

export function recordBlocks(load: Float64Array, extension: Float64Array | undefined): RecordBlocks {
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
  for (let k = 0; k < count; k++) lookAtBoth(loadBlocks, extensionBlocks, twiceArea, k);
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
  k: number,
): void {
  const ys = load.column;
  const xs = extension.column;
  const from = k * BLOCK_READINGS;
  const to = Math.min(ys.length, from + BLOCK_READINGS);
  const before = from === 0 ? 0 : from - 1;
  let x0 = xs[before] as number;
  let y0 = ys[before] as number;
  let highY = -Infinity;
  let lowX = Infinity;
  let highX = -Infinity;
  let area = 0;
  for (let i = from; i < to; i++) {
    const y = ys[i] as number;
    const x = xs[i] as number;
    if (y > highY) highY = y;
    if (x > highX) highX = x;
    if (x < lowX) lowX = x;
    area += (x - x0) * (y + y0);
    x0 = x;
    y0 = y;
  }
  load.largest[k] = highY;
  extension.smallest[k] = lowX;
  extension.largest[k] = highX;
  twiceArea[k] = area;
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

/** The first of the largest readings of a range; −1 where none is there. */
export function largestIndex(blocks: ColumnBlocks, { from, to }: IndexRange): number {
  const { column, largest } = blocks;
  let best = -1;
  let top = -Infinity;
  let i = from;
  while (i < to) {
    const k = blockOf(i);
    const end = Math.min(to, (k + 1) * BLOCK_READINGS);
    if ((largest[k] as number) > top)
      for (; i < end; i++) {
        const value = column[i] as number;
        if (value > top) {
          top = value;
          best = i;
        }
      }
    i = end;
  }
  return best;
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
