/** Columns of whole numbers inside a block: runs of equal values, and differences of the first or second order. */
import { BlockDamagedError, type VarintReader, VarintWriter } from './varint.ts';

/** Equal values in a row as (value, how often). Values may be negative. */
export function writeRuns(writer: VarintWriter, values: readonly number[]): void {
  let at = 0;
  while (at < values.length) {
    const value = values[at] ?? 0;
    let end = at + 1;
    while (end < values.length && values[end] === value) end++;
    writer.signed(value);
    writer.unsigned(end - at);
    at = end;
  }
}

/**
 * Equal values in a row, back into `values` and given out again. `check` is asked once a run; without it what does not
 * fit the kind of array is refused.
 */
export function readRuns<T extends Float64Array | Int32Array | Uint8Array>(
  reader: VarintReader,
  values: T,
  check?: (value: number, times: number) => void,
): T {
  let filled = 0;
  while (filled < values.length) {
    const value = Number(reader.signed());
    const times = reader.unsigned();
    if (times === 0 || filled + times > values.length)
      throw new BlockDamagedError('a run in a block is longer than its column');
    check?.(value, times);
    values.fill(value, filled, filled + times);
    if (values[filled] !== value) throw new BlockDamagedError(`${value} in a block is too large`);
    filled += times;
  }
  return values;
}

/** Differences from value to value, or differences of those, whichever takes fewer bytes. */
export function writeDeltas(writer: VarintWriter, values: readonly number[]): void {
  const first = deltas(values, 1);
  const second = deltas(values, 2);
  const better = second.length < first.length ? second : first;
  writer.unsigned(better === second ? 2 : 1);
  writer.bytes(better);
}

function deltas(values: readonly number[], order: 1 | 2): Uint8Array {
  const writer = new VarintWriter();
  let before = 0;
  let step: number | bigint = 0;
  for (const value of values) {
    const delta = difference(value, before);
    writer.signed(order === 1 ? delta : difference(delta, step));
    before = value;
    step = delta;
  }
  return writer.finish();
}

/** Into `values`, all of it. Throws a BlockDamagedError where a value is no safe integer. */
export function readDeltas(reader: VarintReader, values: Float64Array): Float64Array {
  const order = reader.unsigned();
  if (order !== 1 && order !== 2) throw new BlockDamagedError(`a column of order ${order} is not known`);
  return reader.summedColumn(values, order === 2) ?? readLargeDeltas(reader, values, order);
}

/** Differences that do not fit a double go through bigints. */
function readLargeDeltas(reader: VarintReader, values: Float64Array, order: 1 | 2): Float64Array {
  let before = 0;
  let step: number | bigint = 0;
  for (let i = 0; i < values.length; i++) {
    const read = reader.signed();
    const delta: number | bigint = order === 1 ? read : sum(read, step);
    const value = Number(sum(before, delta));
    if (!Number.isSafeInteger(value)) throw new BlockDamagedError('a number in a block is too large');
    values[i] = value;
    before = value;
    step = delta;
  }
  return values;
}

/** Differences of safe integers can leave the safe integers; only then are they bigints. */
function difference(a: number | bigint, b: number | bigint): number | bigint {
  if (typeof a === 'number' && typeof b === 'number') {
    const result = a - b;
    if (Number.isSafeInteger(result)) return result;
  }
  return BigInt(a) - BigInt(b);
}

function sum(a: number | bigint, b: number | bigint): number | bigint {
  if (typeof a === 'number' && typeof b === 'number') {
    const result = a + b;
    if (Number.isSafeInteger(result)) return result;
  }
  return BigInt(a) + BigInt(b);
}
