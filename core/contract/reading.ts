/**
 * A reading: one line of a readout, exactly as it was shown. Values are decimals (mantissa and exponent), so
 * that "0.10" stays what it is; they become N and mm only on the way out, by exact factors.
 */
import { z } from 'zod';
import { QUANTITIES } from '../curve/curve.ts';
import { READINGS_PER_REPLY_MAX } from '../limits.ts';
import { column, readingSeq } from './message.ts';

/** How a channel's field in one line came out. Everything but `ok` has no value. The order is stored: append only. */
export const CHANNEL_STATUSES = [
  'ok',
  'overload',
  'blank',
  'error-word',
  'out-of-range',
  'malformed',
  'absent',
] as const;
export type ChannelStatus = (typeof CHANNEL_STATUSES)[number];
export const channelStatus = z.enum(CHANNEL_STATUSES);

/** One channel of one reading. */
export interface ShownValue {
  readonly status: ChannelStatus;
  /** A safe integer; the value shown is mantissa × 10^exponent. 0 unless the status is `ok`. */
  readonly mantissa: number;
  /** −20 … 20. "12.50" is mantissa 1250, exponent −2: the digits shown are kept. */
  readonly exponent: number;
  /** Symbol of the unit (core/quantity), from the line where it carries one, otherwise from the profile. */
  readonly unit: string;
}

/** One parsed line: a value per channel of the profile, in the profile's order. */
export interface Reading {
  readonly channels: readonly ShownValue[];
}

/** Which channels a pull has; `key` names the channel's columns. */
export const channelInfo = z.strictObject({
  key: z.string().min(1).max(60),
  quantity: z.enum(QUANTITIES),
  /** Unit as shown by the readout. */
  unit: z.string().max(20),
  /** Unit of the `value` column: N, mm, MPa, s or 1. */
  coreUnit: z.string().max(20),
});
export type ChannelInfo = z.infer<typeof channelInfo>;

export const channelColumns = z.strictObject({
  key: z.string(),
  quantity: z.enum(QUANTITIES),
  coreUnit: z.string(),
  /** In the core's unit, with the profile's scale and sign and the zero taken off; NaN where there is no value. */
  value: column('Float64Array'),
  /** Index into CHANNEL_STATUSES. */
  status: column('Uint8Array'),
  /** Exactly as shown; only when asked for with `shown: true`. */
  shown: z
    .strictObject({
      mantissa: column('Float64Array'),
      exponent: column('Int8Array'),
      /** Index into `units`. */
      unit: column('Uint8Array'),
      units: z.array(z.string().max(20)).max(255),
    })
    .optional(),
});
export type ChannelColumns = z.infer<typeof channelColumns>;

/** Consecutive readings of one pull as columns of equal length. */
export const readingColumns = z.strictObject({
  firstSeq: readingSeq,
  count: z.number().int().nonnegative().max(READINGS_PER_REPLY_MAX),
  /** Arrival of the chunk that completed the line, µs since the record began; equal within one chunk. */
  elapsedUs: column('Float64Array'),
  chunkSeq: column('Float64Array'),
  channels: z.array(channelColumns).max(16),
});
export type ReadingColumns = z.infer<typeof readingColumns>;
