/**
 * Consecutive readings of one pull as one block: every decimal comes back exactly as it was shown.
 * Times are not in it: a reading's time is that of its chunk.
 */
import {
  CHANNEL_STATUSES,
  type ChannelStatus,
  READING_STATUSES,
  type Reading,
  type ReadingStatus,
  type ShownValue,
} from '../../contract/reading.ts';
import { UNITS, type UnitSymbol } from '../../quantity/units.ts';
import { readDeltas, readRuns, writeDeltas, writeRuns } from './columns.ts';
import { BlockDamagedError, VarintReader, VarintWriter } from './varint.ts';

const FORM = 1;
const CHANNELS_IN_BLOCK_MAX = 64;
const UNITS_IN_BLOCK_MAX = 256;

/** All readings must have the same number of channels, as one profile gives them. */
export function encodeReadings(readings: readonly Reading[]): Uint8Array {
  const writer = new VarintWriter();
  const channelCount = readings[0]?.channels.length ?? 0;
  writer.unsigned(FORM);
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
    encodeChannel(
      writer,
      readings.map((reading) => {
        const value = reading.channels[channel];
        if (value === undefined || reading.channels.length !== channelCount)
          throw new RangeError('all readings of a block need the same channels');
        return value;
      }),
    );
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
  writeDeltas(
    writer,
    values.flatMap((v) => (v.mantissa === null ? [] : [v.mantissa])),
  );
}

/** A block as columns: numbers of the lists, as they are stored. */
export interface ReadingBlockColumns {
  readonly count: number;
  readonly chunkSeqs: readonly number[];
  readonly lineIndexes: readonly number[];
  readonly statuses: readonly ReadingStatus[];
  readonly channels: readonly ChannelBlockColumns[];
}
export interface ChannelBlockColumns {
  readonly mantissas: readonly (number | null)[];
  readonly exponents: readonly number[];
  readonly units: readonly UnitSymbol[];
  readonly statuses: readonly ChannelStatus[];
}

/** Throws a BlockDamagedError where the bytes are no such block. */
export function decodeReadingColumns(bytes: Uint8Array): ReadingBlockColumns {
  const reader = new VarintReader(bytes);
  const form = reader.unsigned();
  if (form !== FORM) throw new BlockDamagedError(`form ${form} of a block of readings is not known`);
  const count = reader.unsigned();
  const channelCount = reader.unsigned();
  if (channelCount > CHANNELS_IN_BLOCK_MAX)
    throw new BlockDamagedError(`${channelCount} channels in one block are too many`);
  const chunkSeqs = readDeltas(reader, count);
  const offsets = readRuns(reader, count);
  const statuses = readRuns(reader, count).map((index) => known(READING_STATUSES, index));
  const channels = Array.from({ length: channelCount }, () => decodeChannel(reader, count));
  if (!reader.atEnd) throw new BlockDamagedError('a block of readings is longer than it says');
  const lineIndexes: number[] = [];
  for (let i = 0; i < count; i++) {
    const expected = i > 0 && chunkSeqs[i - 1] === chunkSeqs[i] ? (lineIndexes[i - 1] ?? 0) + 1 : 0;
    lineIndexes.push(expected + (offsets[i] ?? 0));
  }
  return { count, chunkSeqs, lineIndexes, statuses, channels };
}

/** Throws a BlockDamagedError where the bytes are no such block. */
export function decodeReadings(bytes: Uint8Array): Reading[] {
  const { chunkSeqs, lineIndexes, statuses, channels } = decodeReadingColumns(bytes);
  return chunkSeqs.map((chunkSeq, i) => ({
    chunkSeq,
    lineIndex: lineIndexes[i] ?? 0,
    status: known(statuses, i),
    channels: channels.map((channel) => ({
      mantissa: channel.mantissas[i] ?? null,
      exponent: channel.exponents[i] ?? 0,
      unit: known(channel.units, i),
      status: known(channel.statuses, i),
    })),
  }));
}

/** Mostly every line is a reading: then it is the next line of the same chunk or the first of a new one. */
function expectedLineIndex(before: Reading | undefined, chunkSeq: number): number {
  return before?.chunkSeq === chunkSeq ? before.lineIndex + 1 : 0;
}

function decodeChannel(reader: VarintReader, count: number): ChannelBlockColumns {
  const unitCount = reader.unsigned();
  const list = Array.from({ length: Math.min(unitCount, UNITS_IN_BLOCK_MAX) }, () => {
    const text = new TextDecoder().decode(reader.bytes(reader.unsigned()));
    if (!Object.hasOwn(UNITS, text))
      throw new BlockDamagedError(`the unit "${text}" in a block is not known`);
    return text as UnitSymbol;
  });
  const units = readRuns(reader, count).map((index) => known(list, index));
  const statuses = readRuns(reader, count).map((index) => known(CHANNEL_STATUSES, index));
  const exponents = readRuns(reader, count);
  const present = readRuns(reader, count);
  let presentCount = 0;
  for (const p of present) presentCount += p;
  const numbers = readDeltas(reader, presentCount);
  let next = 0;
  const mantissas = present.map((p) => (p === 0 ? null : (numbers[next++] ?? null)));
  return { mantissas, exponents, units, statuses };
}

function known<T>(list: readonly T[], index: number): T {
  const value = list[index];
  if (value === undefined) throw new BlockDamagedError(`number ${index} of a list in a block is not known`);
  return value;
}
