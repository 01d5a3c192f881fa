/** Requests about pulls: making one, and reading kept ones back. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, READINGS_PER_REPLY_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { concern, pullInstruments } from '../instruments/pull-instruments.ts';
import { statedDay } from '../pull/stated-day.ts';
import { typedValues } from '../pull/typed-values.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { instrumentChoice } from './instrument-requests.ts';
import { evaluationMessage } from './evaluation.ts';
import { evaluationOptions } from './evaluation-options.ts';
import { column, elapsedUs, nothing, readingSeq, rowId, wallMs } from './message.ts';
import { act, fractureNote, gap, keptFractureNote, mark } from './record.ts';
import { channelInfo, readingColumns } from './reading.ts';
import { CHANNELS_MAX, readoutProfile } from './readout-profile.ts';
import { breakRule, heldOpenS, tailS, triggerRule } from './rules.ts';
import { instrumentIndex, keptSecond, secondReadout } from './second-readout.ts';
import { session, sessionState } from './session.ts';
import { pullSource, source } from './source.ts';
import { READINGS_ORIGINS } from '../pull/readings-origin.ts';
import { keptSpecimen, page } from './specimen-requests.ts';
import { keptStatedDay } from './stated-day-requests.ts';
import { pullVoid } from './void-requests.ts';

/** A pull in a list. */
export const pullLine = atFirstUse(() =>
  z.strictObject({
    pullId: rowId,
    specimenId: rowId,
    specimenName: z.string(),
    startedWallMs: wallMs,
    /** `ended`, or the state that an open record is in. */
    state: sessionState,
    readingCount: z.number().int().nonnegative(),
    peakForceN: z.number().nullable(),
    /** True when a break was marked and not taken back. */
    broke: z.boolean(),
    gapCount: z.number().int().nonnegative(),
    operator: z.string().nullable(),
    /** Null where it counts. */
    voided: pullVoid.nullable().default(null),
    /** What a person typed from the display of a frame without a port; null where readings were recorded. */
    typed: typedValues.nullable().default(null),
    /** Of an imported pull the day that a person stated, "2019-05-14" or "2019-05-14T10:30"; null where nobody did. */
    pulledOn: statedDay.nullable().default(null),
    /** Set where no specimen gave the readings. */
    readings: z.enum(READINGS_ORIGINS).optional(),
  }),
);
export type PullLine = z.infer<typeof pullLine>;

/** One kept pull with everything but its readings. */
export const keptPull = atFirstUse(() =>
  z.strictObject({
    ...pullLine.unwrap().shape,
    specimen: keptSpecimen,
    source: pullSource,
    profile: readoutProfile,
    /** A second instrument on a port of its own, whose channels stand behind those of the profile. */
    second: keptSecond.nullable().default(null),
    trigger: triggerRule,
    breakRule,
    tailS,
    /** Null also in pulls from before records were held open. */
    heldOpenS: heldOpenS.default(null),
    programVersion: z.string(),
    /** Minutes that the local clock was ahead of UTC at the start; null where that was not kept. */
    startedUtcOffsetMinutes: z.number().int().min(-1080).max(1080).nullable().default(null),
    /** Monotonic clock at `startedWallMs`, so that every elapsed time can be given a wall time. */
    startedMonotonicUs: z.number().int().nonnegative(),
    channels: z.array(channelInfo).max(2 * CHANNELS_MAX),
    /** Zero taken off each channel, in the core's unit, by channel key. */
    zeros: z.record(z.string(), z.number()),
    chunkCount: z.number().int().nonnegative(),
    rawByteCount: z.number().int().nonnegative(),
    /** Lines that gave no reading, by reason. They are kept as raw bytes. */
    misfitCount: z.record(z.string(), z.number().int().nonnegative()),
    durationUs: elapsedUs,
    triggerSeq: readingSeq.nullable(),
    breakSeq: readingSeq.nullable(),
    marks: z.array(mark),
    gaps: z.array(gap),
    acts: z.array(act),
    /** With what it was measured, as it stood at the start; null in pulls from before that was kept. */
    instruments: pullInstruments.nullable().default(null),
    fractureNotes: z.array(keptFractureNote),
    /** Of an imported pull: what was stated as its day, the one that stands last. */
    statedDays: z.array(keptStatedDay).default([]),
  }),
);
export type KeptPull = z.infer<typeof keptPull>;

/** Reply of every step of a pull. */
const stepped = z.strictObject({ state: sessionState });

export const pullRequests = {
  'session.get': { request: nothing, reply: session },
  /**
   * Recording begins. Source and profile open the readout where none is open. A record that was held open after its
   * break or stop is put away by it.
   */
  'pull.ready': {
    request: atFirstUse(() =>
      z.strictObject({
        specimenId: rowId,
        source: source.optional(),
        profile: readoutProfile.optional(),
        /** A second instrument on a port of its own: extension beside the load. */
        second: secondReadout.optional(),
        trigger: triggerRule,
        breakRule,
        tailS,
        heldOpenS: heldOpenS.optional(),
        operator: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
        plannedForceN: z.number().positive().max(1e9).optional(),
        plannedExtensionMm: z.number().positive().max(1e6).optional(),
        /** Instruments of the register that it is measured with, one of each kind. */
        instruments: instrumentChoice.optional(),
        /**
         * Concerns about calibration that a person has read and knows. A concern that is not among them refuses the start
         * (code `calibration-asked`). Absent where nobody can be asked: the pull begins and is marked so.
         */
        known: z.array(concern).max(20).optional(),
      }),
    ),
    reply: z.strictObject({ pullId: rowId, state: sessionState }),
  },
  'pull.start': { request: nothing, reply: stepped },
  'pull.mark-break': { request: nothing, reply: stepped },
  'pull.undo-break': { request: nothing, reply: stepped },
  'pull.stop': { request: nothing, reply: stepped },
  'pull.continue': { request: nothing, reply: stepped },
  /** Ends the record. What was recorded stays, whatever state it was in. */
  'pull.close': { request: nothing, reply: stepped },
  /** Back to `listening`, from `ended` or from a record that is held open after its break or stop, which it closes. */
  'pull.put-away': { request: nothing, reply: stepped },
  /**
   * Takes the present value as zero of these channels; before the trigger only, and none older than ZERO_AGE_MS_MAX.
   * `sendCommand` also sends the profile's zero command to the readout, the only thing that this program ever sends by
   * itself.
   */
  'pull.zero': {
    request: atFirstUse(() =>
      z.strictObject({
        keys: z
          .array(channelInfo.unwrap().shape.key)
          .min(1)
          .max(2 * CHANNELS_MAX),
        sendCommand: z.boolean().optional(),
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        /** All that now hold, in the core's units. */
        zeros: z.record(z.string(), z.number()),
        /** How far each that was taken now lies from the one that held before: its drift. None for a first zero. */
        moved: z.record(z.string(), z.number()),
        basis: z.number().int(),
      }),
    ),
  },
  /** Also of the open pull, up to the newest reading. */
  'pull.readings': {
    request: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        fromSeq: readingSeq,
        count: z.number().int().min(1).max(READINGS_PER_REPLY_MAX),
        shown: z.boolean().optional(),
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        basis: z.number().int(),
        total: z.number().int(),
        columns: readingColumns,
      }),
    ),
  },
  /**
   * What is drawn of a long pull until its readings are there: marks, gaps and extremes are in it, figures are not taken
   * from it. Null where the readings come as soon, and of the open pull.
   */
  'pull.outline': {
    request: z.strictObject({ pullId: rowId }),
    reply: atFirstUse(() =>
      z.strictObject({
        outline: z
          .strictObject({
            /** Readings of the whole pull. */
            total: z.number().int(),
            /** Number of each in the pull, ascending. */
            readings: column('Float64Array'),
            elapsedUs: column('Float64Array'),
            /** N; NaN where there is no value. */
            force: column('Float64Array'),
            abscissa: z.enum(['extension', 'travel']).nullable(),
            /** mm; null where there is neither. */
            along: column('Float64Array').nullable(),
          })
          .nullable(),
      }),
    ),
  },
  /** Raw bytes in the order in which they were read; `instrument` of each chunk is 1 for those of a second instrument. */
  'pull.raw': {
    request: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        fromChunk: z.number().int().nonnegative(),
        count: z.number().int().min(1).max(100_000),
        /** Only what came from this one of two instruments. */
        instrument: instrumentIndex.optional(),
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        total: z.number().int(),
        elapsedUs: column('Float64Array'),
        byteCount: column('Int32Array'),
        instrument: column('Uint8Array'),
        bytes: column('Uint8Array'),
      }),
    ),
  },
  /** A record that is held open after its break or stop is closed by it: where it broke is known. */
  'pull.note-fracture': {
    request: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        note: fractureNote,
        by: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
        supersedes: rowId.optional(),
        reason: z.string().trim().min(1).max(TEXT_LENGTH_MAX).optional(),
      }),
    ),
    reply: z.strictObject({ fractureNoteId: rowId }),
  },
  /**
   * By exactly these options; without any, by those of the evaluation that stands (see evaluation-requests.ts). With a
   * specimen, as if its own were corrected to it; without, by its newest correction. Nothing is kept.
   */
  'pull.evaluate': {
    request: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        options: evaluationOptions.optional(),
        specimen: specimenFile.optional(),
      }),
    ),
    reply: evaluationMessage,
  },
  /** With its newest correction, which the evaluation rests on. */
  'pull.specimen': { request: z.strictObject({ pullId: rowId }), reply: keptSpecimen },
  'pull.get': { request: z.strictObject({ pullId: rowId }), reply: keptPull },
  'pull.list': {
    request: z.strictObject(page),
    reply: atFirstUse(() => z.strictObject({ items: z.array(pullLine), nextCursor: rowId.nullable() })),
  },
} as const;
