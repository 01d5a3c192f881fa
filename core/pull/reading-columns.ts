/** Readings as columns in the core's units. */
import {
  CHANNEL_STATUSES,
  READING_STATUSES,
  type Reading,
  type ReadingColumns,
} from '../contract/reading.ts';
import type { ReadoutChannel } from '../contract/readout-profile.ts';
import type { Exact } from '../quantity/exact.ts';
import { ChannelConverter } from './channel-value.ts';

/** A reading with its place in the pull and its time, µs since the record began. */
export interface TimedReading {
  readonly seq: number;
  readonly elapsedUs: number;
  readonly reading: Reading;
}

/** One converter a channel, in their order. */
export function convertersOf(
  channels: readonly ReadoutChannel[],
  zeros: ReadonlyMap<string, Exact>,
): ChannelConverter[] {
  return channels.map((channel) => new ChannelConverter(channel, zeros.get(channel.field)));
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
      const exact = values.flatMap((v, at) => (v.exact === undefined ? [] : [{ at, text: v.exact }]));
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
                ...(exact.length === 0 ? {} : { exact }),
              },
            }
          : {}),
      };
    }),
  };
}
