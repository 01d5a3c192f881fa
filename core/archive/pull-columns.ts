/** Readings of a pull as columns in the core's units, and as the curve that an evaluation takes. */
import { CHANNEL_STATUSES, READING_STATUSES, type ReadingColumns } from '../contract/reading.ts';
import type { ReadoutProfile } from '../contract/readout-profile.ts';
import type { Curve, CurveGap } from '../curve/curve.ts';
import { ChannelConverter } from '../pull/channel-value.ts';
import type { Exact } from '../quantity/exact.ts';
import { type TimedReading, timedReadings } from './read-blocks.ts';
import { extentOf, gapsOf, pullRowOf, zerosOf } from './pull-reader.ts';
import type { Connection } from './sql.ts';

/** One converter a channel, in the profile's order. */
export function convertersOf(profile: ReadoutProfile, zeros: ReadonlyMap<string, Exact>): ChannelConverter[] {
  return profile.channels.map((channel) => new ChannelConverter(channel, zeros.get(channel.field)));
}

/** Columns of consecutive readings; `shown` adds the decimals exactly as the readout showed them. */
export function columnsOf(
  readings: readonly TimedReading[],
  converters: readonly ChannelConverter[],
  { firstSeq, shown }: { readonly firstSeq: number; readonly shown: boolean },
): ReadingColumns {
  const count = readings.length;
  return {
    firstSeq,
    count,
    elapsedUs: Float64Array.from(readings, (r) => r.elapsedUs),
    chunkSeq: Float64Array.from(readings, (r) => r.reading.chunkSeq),
    status: Uint8Array.from(readings, (r) => READING_STATUSES.indexOf(r.reading.status)),
    channels: converters.map((converter, index) => {
      const values = readings.map(({ seq, reading }) => {
        const value = reading.channels[index];
        if (value === undefined) throw new RangeError(`reading ${seq} has no channel ${index}`);
        return value;
      });
      const units = [...new Set(values.map((v) => v.unit))];
      return {
        key: converter.info.key,
        quantity: converter.info.quantity,
        coreUnit: converter.info.coreUnit,
        value: Float64Array.from(values, (v) => converter.value(v)),
        status: Uint8Array.from(values, (v) => CHANNEL_STATUSES.indexOf(v.status)),
        ...(shown
          ? {
              shown: {
                mantissa: Float64Array.from(values, (v) => v.mantissa ?? Number.NaN),
                exponent: Int8Array.from(values, (v) => v.exponent),
                unit: Uint8Array.from(values, (v) => units.indexOf(v.unit)),
                units,
              },
            }
          : {}),
      };
    }),
  };
}

export interface ColumnsRequest {
  readonly pullId: number;
  readonly fromSeq: number;
  readonly count: number;
  readonly shown: boolean;
}

/** Readings that are in the archive; fewer than asked for where the pull ends. */
export function readColumns(
  connection: Connection,
  { pullId, fromSeq, count, shown }: ColumnsRequest,
): { total: number; columns: ReadingColumns } {
  const row = pullRowOf(connection, pullId);
  const converters = convertersOf(row.profile_json, zerosOf(connection, pullId));
  const readings = [...timedReadings(connection, pullId, { from: fromSeq, to: fromSeq + count })];
  return {
    total: extentOf(connection, pullId).readings,
    columns: columnsOf(readings, converters, { firstSeq: fromSeq, shown }),
  };
}

const CURVE_COLUMN = {
  force: 'forceN',
  extension: 'extensionMm',
  travel: 'travelMm',
  stress: 'stressMpa',
  strain: 'strainRatio',
} as const;

/** The whole pull as a curve: time from the record's clock, the first channel of each quantity, gaps where they were. */
export function curveOf(connection: Connection, pullId: number): Curve {
  const row = pullRowOf(connection, pullId);
  const { readings: length } = extentOf(connection, pullId);
  const converters = convertersOf(row.profile_json, zerosOf(connection, pullId));
  const timeS = new Float64Array(length);
  const columns = converters.map(() => new Float64Array(length));
  for (const { seq, elapsedUs, reading } of timedReadings(connection, pullId)) {
    timeS[seq] = elapsedUs / 1e6;
    for (const [index, converter] of converters.entries()) {
      const value = reading.channels[index];
      const column = columns[index];
      if (value !== undefined && column !== undefined) column[seq] = converter.value(value);
    }
  }
  const named: { -readonly [K in (typeof CURVE_COLUMN)[keyof typeof CURVE_COLUMN]]?: Float64Array } = {};
  row.profile_json.channels.forEach((channel, index) => {
    const { quantity } = channel;
    // A readout's own peak memory is no curve, and its clock is not the record's.
    if (channel.peak || quantity === 'time' || quantity === 'other') return;
    const column = columns[index];
    if (column !== undefined) named[CURVE_COLUMN[quantity]] ??= column;
  });
  return { length, timeS, ...named, gaps: curveGaps(connection, pullId) };
}

function curveGaps(connection: Connection, pullId: number): CurveGap[] {
  return gapsOf(connection, pullId).map((gap) => ({
    beforeIndex: gap.beforeSeq,
    durationS: ((gap.toElapsedUs ?? gap.fromElapsedUs) - gap.fromElapsedUs) / 1e6,
    cause: gap.words,
  }));
}
