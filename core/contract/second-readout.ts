/** A second instrument on a port of its own beside the one that gives the load: what is asked for, and what is kept. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { TEXT_LENGTH_MAX } from '../limits.ts';
import { readoutProfile } from './readout-profile.ts';
import { source } from './source.ts';

/** Which of the two a line, a chunk or a gap is of: 0 gives the load, 1 is the second. */
export const instrumentIndex = z.union([z.literal(0), z.literal(1)]);
export type InstrumentIndex = z.infer<typeof instrumentIndex>;

export const secondReadout = z.strictObject({ source, profile: readoutProfile });
export type SecondReadout = z.infer<typeof secondReadout>;

/**
 * How far the values of the second instrument stand behind the loads that they are joined to: arrival of the load less
 * arrival of the value, on the recorder's monotonic clock. What an instrument or adapter delays by itself is not in it.
 */
export const skew = atFirstUse(() =>
  z.strictObject({
    /** Readings that carry a value of the second instrument, and those for which there was none young enough. */
    joined: z.int().nonnegative(),
    alone: z.int().nonnegative(),
    meanMs: z.number().nonnegative(),
    longestMs: z.number().nonnegative(),
  }),
);
export type Skew = z.infer<typeof skew>;

/** The raw record of one of two instruments, as it was when the pull was closed. */
export const instrumentRecord = atFirstUse(() =>
  z.strictObject({
    chunkCount: z.int().nonnegative(),
    rawByteCount: z.int().nonnegative(),
    /** Hexadecimal, over its raw bytes alone. */
    rawSha256: z.string().max(64),
  }),
);
export type InstrumentRecord = z.infer<typeof instrumentRecord>;

export const keptSecond = atFirstUse(() =>
  z.strictObject({
    source,
    sourceWords: z.string().max(TEXT_LENGTH_MAX),
    profile: readoutProfile,
    /** A value older than this is joined to no load. */
    ageMaxMs: z.number().positive(),
    /** Null while the pull is open. */
    closed: z.strictObject({ records: z.tuple([instrumentRecord, instrumentRecord]), skew }).nullable(),
  }),
);
export type KeptSecond = z.infer<typeof keptSecond>;
