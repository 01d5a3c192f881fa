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

export function readRuns(reader: VarintReader, count: number): number[] {
  const values: number[] = [];
  let filled = 0;
  while (filled < count) {
    const value = Number(reader.signed());
    const times = reader.unsigned();
    if (times === 0 || filled + times > count)
      throw new BlockDamagedError('a run in a block is longer than its column');
    for (const end = filled + times; filled < end; filled++) values[filled] = value;
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

export function readDeltas(reader: VarintReader, count: number): number[] {
  const order = reader.unsigned();
  if (order !== 1 && order !== 2) throw new BlockDamagedError(`a column of order ${order} is not known`);
  const values: number[] = [];
  let before = 0;
  let step: number | bigint = 0;
  for (let i = 0; i < count; i++) {
    const read = reader.signed();
    const delta: number | bigint = order === 1 ? read : sum(read, step);
    const value = Number(sum(before, delta));
    if (!Number.isSafeInteger(value)) throw new BlockDamagedError('a number in a block is too large');
    values.push(value);
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
