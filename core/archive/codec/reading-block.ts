/**
 * Consecutive readings of one pull as one block: every decimal comes back exactly as it was shown.
 * Times are not in it: a reading's time is that of its chunk.
 */
import {
  CHANNEL_STATUSES,
  EXACT_TEXT,
  READING_STATUSES,
  type Reading,
  type ShownValue,
} from '../../contract/reading.ts';
import { UNITS, type UnitSymbol } from '../../quantity/units.ts';
import { ColumnRoom } from './column-room.ts';
import { readDeltas, readRuns, writeDeltas, writeRuns } from './columns.ts';
import { BlockDamagedError, VarintReader, VarintWriter } from './varint.ts';

/** The second holds numbers longer than a safe integer beside the others; written only where there is one. */
const FORM = 1;
const FORM_WITH_EXACT = 2;
const CHANNELS_IN_BLOCK_MAX = 64;
const UNITS_IN_BLOCK_MAX = 256;

/** All readings must have the same number of channels, as one profile gives them. */
export function encodeReadings(readings: readonly Reading[]): Uint8Array {
  const writer = new VarintWriter();
  const channelCount = readings[0]?.channels.length ?? 0;
  const withExact = readings.some(({ channels }) => channels.some(({ exact }) => exact !== undefined));
  writer.unsigned(withExact ? FORM_WITH_EXACT : FORM);
  writer.unsigned(readings.length);
  writer.unsigned(channelCount);
  writeDeltas(
    writer,
    readings.map((r) => r.chunkSeq),
  );
  writeRuns(
    writer,
    readings.map((r, i) => r.lineIndex - expectedLineIndex(readings[i - 1], r.chunkSeq)),
  );
  writeRuns(
    writer,
    readings.map((r) => READING_STATUSES.indexOf(r.status)),
  );
  for (let channel = 0; channel < channelCount; channel++) {
    const values = readings.map((reading) => {
      const value = reading.channels[channel];
      if (value === undefined || reading.channels.length !== channelCount)
        throw new RangeError('all readings of a block need the same channels');
      return value;
    });
    encodeChannel(writer, values);
    if (withExact) encodeExact(writer, values);
  }
  return writer.finish();
}

function encodeChannel(writer: VarintWriter, values: readonly ShownValue[]): void {
  const units = [...new Set(values.map((v) => v.unit))];
  writer.unsigned(units.length);
  for (const unit of units) {
    const text = new TextEncoder().encode(unit);
    writer.unsigned(text.length);
    writer.bytes(text);
  }
  writeRuns(
    writer,
    values.map((v) => units.indexOf(v.unit)),
  );
  writeRuns(
    writer,
    values.map((v) => CHANNEL_STATUSES.indexOf(v.status)),
  );
  writeRuns(
    writer,
    values.map((v) => v.exponent),
  );
  writeRuns(
    writer,
    values.map((v) => (v.mantissa === null ? 0 : 1)),
  );
  const mantissas: number[] = [];
  for (const { mantissa } of values) if (mantissa !== null) mantissas.push(mantissa);
  writeDeltas(writer, mantissas);
}

/** How many there are, then for each what its place is more than the one before, and its text. */
function encodeExact(writer: VarintWriter, values: readonly ShownValue[]): void {
  const long = values.flatMap(({ exact }, at) => (exact === undefined ? [] : [{ at, exact }]));
  writer.unsigned(long.length);
  let before = 0;
  for (const { at, exact } of long) {
    const text = new TextEncoder().encode(exact);
    writer.unsigned(at - before);
    writer.unsigned(text.length);
    writer.bytes(text);
    before = at;
  }
}

/** A block as columns of numbers, as they are stored. */
export interface ReadingBlockColumns {
  readonly count: number;
  readonly chunkSeqs: Float64Array;
  /** What a line's place in its chunk is more than expected: mostly 0, see `expectedLineIndex`. */
  readonly lineOffsets: Int32Array;
  /** Index into READING_STATUSES. */
  readonly statuses: Uint8Array;
  readonly channels: readonly ChannelBlockColumns[];
}
export interface ChannelBlockColumns {
  /** Safe integers; NaN where no number was shown. */
  readonly mantissas: Float64Array;
  readonly exponents: Int32Array;
  readonly unitList: readonly UnitSymbol[];
  /** Index into `unitList`. */
  readonly units: Uint8Array;
  /** Index into CHANNEL_STATUSES. */
  readonly statuses: Uint8Array;
  /** Unit, exponent and status are the same in the whole block, as they mostly are. */
  readonly even: boolean;
  /** Numbers that are longer than a safe integer, by their place; absent where there is none. */
  readonly exact?: ReadonlyMap<number, string>;
}

/** Columns in `room`, as long as it is not cleared. Throws a BlockDamagedError where the bytes are no such block. */
export function decodeReadingColumns(bytes: Uint8Array, room = new ColumnRoom()): ReadingBlockColumns {
  const reader = new VarintReader(bytes);
  const form = reader.unsigned();
  if (form !== FORM && form !== FORM_WITH_EXACT)
    throw new BlockDamagedError(`form ${form} of a block of readings is not known`);
  const count = reader.unsigned();
  const channelCount = reader.unsigned();
  if (count > reader.left) throw new BlockDamagedError('a block of readings ends too early');
  if (channelCount > CHANNELS_IN_BLOCK_MAX)
    throw new BlockDamagedError(`${channelCount} channels in one block are too many`);
  const chunkSeqs = readDeltas(reader, room.numbers(count));
  const lineOffsets = readRuns(reader, room.integers(count));
  const statuses = readRuns(reader, room.bytes(count), (index) => void known(READING_STATUSES, index));
  const channels = Array.from({ length: channelCount }, () => {
    const channel = decodeChannel(reader, count, room);
    return form === FORM ? channel : { ...channel, ...decodeExact(reader, channel.mantissas) };
  });
  if (!reader.atEnd) throw new BlockDamagedError('a block of readings is longer than it says');
  return { count, chunkSeqs, lineOffsets, statuses, channels };
}

/** Throws a BlockDamagedError where the bytes are no such block. */
export function decodeReadings(bytes: Uint8Array): Reading[] {
  const { chunkSeqs, lineOffsets, statuses, channels } = decodeReadingColumns(bytes);
  let before: Reading | undefined;
  return Array.from(chunkSeqs, (chunkSeq, i) => {
    before = {
      chunkSeq,
      lineIndex: expectedLineIndex(before, chunkSeq) + (lineOffsets[i] ?? 0),
      status: known(READING_STATUSES, statuses[i]),
      channels: channels.map((channel) => shownValue(channel, i)),
    };
    return before;
  });
}

/** What one channel showed in one reading of a block. */
export function shownValue(
  { mantissas, exponents, unitList, units, statuses, exact }: ChannelBlockColumns,
  i: number,
): ShownValue {
  const mantissa = mantissas[i] ?? Number.NaN;
  const text = exact?.get(i);
  return {
    ...(text === undefined ? {} : { exact: text }),
    mantissa: Number.isNaN(mantissa) ? null : mantissa,
    exponent: exponents[i] ?? 0,
    unit: known(unitList, units[i]),
    status: known(CHANNEL_STATUSES, statuses[i]),
  };
}

/** Mostly every line is a reading: then it is the next line of the same chunk or the first of a new one. */
function expectedLineIndex(before: Reading | undefined, chunkSeq: number): number {
  return before?.chunkSeq === chunkSeq ? before.lineIndex + 1 : 0;
}

function decodeChannel(reader: VarintReader, count: number, room: ColumnRoom): ChannelBlockColumns {
  const unitCount = reader.unsigned();
  const unitList = Array.from({ length: Math.min(unitCount, UNITS_IN_BLOCK_MAX) }, () => {
    const text = new TextDecoder().decode(reader.bytes(reader.unsigned()));
    if (!Object.hasOwn(UNITS, text))
      throw new BlockDamagedError(`the unit "${text}" in a block is not known`);
    return text as UnitSymbol;
  });
  let runs = 0;
  const units = readRuns(reader, room.bytes(count), (index) => {
    known(unitList, index);
    runs++;
  });
  const statuses = readRuns(reader, room.bytes(count), (index) => {
    known(CHANNEL_STATUSES, index);
    runs++;
  });
  const exponents = readRuns(reader, room.integers(count), () => {
    runs++;
  });
  let presentCount = 0;
  const present = readRuns(reader, room.bytes(count), (value, times) => {
    if (value !== 0) presentCount += times;
  });
  if (presentCount > reader.left) throw new BlockDamagedError('a block of readings ends too early');
  const numbers = readDeltas(reader, room.numbers(presentCount));
  return {
    mantissas: presentCount === count ? numbers : spread(numbers, present),
    exponents,
    unitList,
    units,
    statuses,
    even: runs === 3,
  };
}

function decodeExact(reader: VarintReader, mantissas: Float64Array): Pick<ChannelBlockColumns, 'exact'> {
  const count = reader.unsigned();
  if (count > mantissas.length) throw new BlockDamagedError('a block has more long numbers than readings');
  const exact = new Map<number, string>();
  let at = 0;
  for (let i = 0; i < count; i++) {
    at += reader.unsigned();
    const text = new TextDecoder().decode(reader.bytes(reader.unsigned()));
    if (exact.has(at) || !EXACT_TEXT.test(text) || !Number.isSafeInteger(mantissas[at]))
      throw new BlockDamagedError('a long number in a block is none');
    exact.set(at, text);
  }
  return count === 0 ? {} : { exact };
}

/** Numbers to the places that have one. */
function spread(numbers: Float64Array, present: Uint8Array): Float64Array {
  let next = 0;
  return Float64Array.from(present, (p) => (p === 0 ? Number.NaN : (numbers[next++] ?? Number.NaN)));
}

function known<T>(list: readonly T[], index: number | undefined): T {
  const value = list[index ?? -1];
  if (value === undefined)
    throw new BlockDamagedError(`number ${index ?? -1} of a list in a block is not known`);
  return value;
}
