/**
 * A reading: one line of a readout, exactly as it was shown. Values are decimals (mantissa and exponent), so
 * that "0.10" stays what it is; they become N and mm only on the way out, by exact factors.
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, READINGS_PER_REPLY_MAX } from '../limits.ts';
import type { UnitSymbol } from '../quantity/units.ts';
import { column, readingSeq } from './message.ts';
import { CHANNEL_QUANTITIES, CHANNELS_MAX } from './readout-profile.ts';

/**
 * How a channel's field in one line came out; everything but `ok` and `out-of-range` has no value to be used.
 * The order is stored as numbers in the archive: append only.
 */
export const CHANNEL_STATUSES = [
  'ok',
  'overload',
  'blank',
  'error-word',
  'out-of-range',
  'malformed',
] as const;
export type ChannelStatus = (typeof CHANNEL_STATUSES)[number];
export const channelStatus = z.enum(CHANNEL_STATUSES);

/** Digits of one number; a longer one is no number of a readout, and only the raw line holds it. */
export const DIGITS_SHOWN_MAX = 60;
/** Sign, digits, point. */
export const EXACT_TEXT = /^-?\d{1,60}(?:\.\d{1,60})?$/;

/** How the line as a whole came out. Stored as numbers: append only. */
export const READING_STATUSES = ['ok', 'overload', 'error-word', 'unit-changed', 'sequence-jump'] as const;
export type ReadingStatus = (typeof READING_STATUSES)[number];

/** One channel of one reading: the value shown is mantissa × 10^exponent, in `unit`, before scale, offset and sign. */
export interface ShownValue {
  /** A safe integer; null where no number was shown. "12.50" is 1250 with exponent −2: the digits are kept. */
  readonly mantissa: number | null;
  readonly exponent: number;
  /**
   * All digits, as plain decimal text, of a number that has more than a safe integer holds ("99999999999999999999999").
   * Mantissa and exponent are then the nearest to it that they can be.
   */
  readonly exact?: string;
  readonly unit: UnitSymbol;
  readonly status: ChannelStatus;
}

/** One parsed line: a value per channel of the profile, in the profile's order. */
export interface Reading {
  /** The chunk in which the line ended: its arrival is the reading's time. */
  readonly chunkSeq: number;
  /** Place of the line within that chunk, from 0. */
  readonly lineIndex: number;
  readonly channels: readonly ShownValue[];
  readonly status: ReadingStatus;
}

/** Which channels a pull has; `key` is the field's name in the profile. */
export const channelInfo = atFirstUse(() =>
  z.strictObject({
    key: z.string().min(1).max(NAME_LENGTH_MAX),
    quantity: z.enum(CHANNEL_QUANTITIES),
    /** Unit as shown by the readout. */
    unit: z.string().max(20),
    /** Unit of the `value` column: N, mm, MPa, s or 1; for the quantity `other` the unit expected. */
    coreUnit: z.string().max(20),
  }),
);
export type ChannelInfo = z.infer<typeof channelInfo>;

export const channelColumns = atFirstUse(() =>
  z.strictObject({
    key: z.string(),
    quantity: z.enum(CHANNEL_QUANTITIES),
    coreUnit: z.string(),
    /** In the core's unit, with the profile's scale and sign and the zero taken off; NaN where there is no value. */
    value: column('Float64Array'),
    /** Index into CHANNEL_STATUSES. */
    status: column('Uint8Array'),
    /** Exactly as shown; only when asked for with `shown: true`. */
    shown: z
      .strictObject({
        /** Safe integers; NaN where no number was shown. */
        mantissa: column('Float64Array'),
        exponent: column('Int8Array'),
        /** Index into `units`. */
        unit: column('Uint8Array'),
        units: z.array(z.string().max(20)).max(255),
        /** Numbers longer than a safe integer, by their place in the columns; `mantissa` is then the nearest to it. */
        exact: z
          .array(z.strictObject({ at: z.int().nonnegative(), text: z.string().regex(EXACT_TEXT) }))
          .max(READINGS_PER_REPLY_MAX)
          .optional(),
      })
      .optional(),
  }),
);
export type ChannelColumns = z.infer<typeof channelColumns>;

/** Consecutive readings of one pull as columns of equal length. */
export const readingColumns = atFirstUse(() =>
  z.strictObject({
    firstSeq: readingSeq,
    count: z.number().int().nonnegative().max(READINGS_PER_REPLY_MAX),
    /** Arrival of the chunk that completed the line, µs since the record began; equal within one chunk. */
    elapsedUs: column('Float64Array'),
    chunkSeq: column('Float64Array'),
    /** Index into READING_STATUSES. */
    status: column('Uint8Array'),
    channels: z.array(channelColumns).max(2 * CHANNELS_MAX),
  }),
);
export type ReadingColumns = z.infer<typeof readingColumns>;
