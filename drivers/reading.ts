/** A line of a readout, parsed: a reading (core/contract/reading.ts) or the reason why it is none. */

export {
  CHANNEL_STATUSES,
  type ChannelStatus,
  READING_STATUSES,
  type Reading,
  type ReadingStatus,
  type ShownValue,
} from '../core/contract/reading.ts';
import type { Reading } from '../core/contract/reading.ts';

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
