/** A reading: one line of a readout, parsed. Exact decimals as shown, never a rounded double. */
import type { UnitSymbol } from '../core/quantity/units.ts';

/** Why a channel of a reading has a value to be used (`ok`) or has not. */
export const CHANNEL_STATUSES = [
  'ok',
  'overload',
  'blank',
  'error-word',
  'out-of-range',
  'malformed',
] as const;
export type ChannelStatus = (typeof CHANNEL_STATUSES)[number];

/**
 * One channel of one line. The shown value is mantissa × 10^exponent in `unit`, before the profile's scale,
 * offset and sign. `mantissa` is a safe integer; null where no number was shown (never 0, never the value before).
 */
export interface ChannelReading {
  readonly mantissa: number | null;
  readonly exponent: number;
  readonly unit: UnitSymbol;
  readonly status: ChannelStatus;
}

/** Status of the line as a whole: from its status field, its check, its sequence number. */
export const READING_STATUSES = ['ok', 'overload', 'error-word', 'unit-changed', 'sequence-jump'] as const;
export type ReadingStatus = (typeof READING_STATUSES)[number];

export interface Reading {
  /** The chunk in which the line ended: its arrival time is the reading's time. */
  readonly chunkSeq: number;
  /** Place of the line within that chunk, from 0. */
  readonly lineIndex: number;
  /** In the order of the profile's channels. */
  readonly channels: readonly ChannelReading[];
  readonly status: ReadingStatus;
}

/** Why a line is no reading. Its bytes are kept raw all the same. */
export const MISFIT_REASONS = [
  'before-sync',
  'incomplete',
  'too-long',
  'layout',
  'check-wrong',
  'no-number',
  'ignored',
] as const;
export type MisfitReason = (typeof MISFIT_REASONS)[number];

/** One line as it came. */
export interface ParsedLine {
  readonly chunkSeq: number;
  readonly lineIndex: number;
  /** Without its terminator; cut to LINE_BYTES_MAX where it was too long. */
  readonly bytes: Uint8Array;
  readonly outcome:
    | { readonly kind: 'reading'; readonly reading: Reading }
    | { readonly kind: 'misfit'; readonly reason: MisfitReason; readonly sentence: string };
}

/** Turns the chunks of ONE opening into lines; a new opening takes a new parser. */
export interface ReadoutParser {
  /** Lines that ended in this chunk. */
  readonly push: (chunkSeq: number, bytes: Uint8Array, arrivedUs: number) => readonly ParsedLine[];
  /** To be called now and then: gives out what has waited for a terminator too long. */
  readonly tick: (nowUs: number) => readonly ParsedLine[];
  /** The opening has ended: the unfinished tail, marked incomplete. */
  readonly end: () => readonly ParsedLine[];
  readonly counts: () => ReadoutCounts;
}

export interface ReadoutCounts {
  readonly bytes: number;
  readonly readings: number;
  readonly misfits: Readonly<Record<MisfitReason, number>>;
  /** Bytes that came since the last line ended: many of them mean "bytes arrive but no lines". */
  readonly bytesWithoutLine: number;
  /** Readings with a status other than ok, or a channel with one. */
  readonly flagged: number;
}
