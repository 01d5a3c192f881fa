/** The session: everything a window needs to show the present, in one snapshot that stands by itself. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { fault, readingSeq, rowId, wallMs } from './message.ts';
import { notice } from './notice.ts';
import { gap, mark } from './record.ts';
import { channelInfo, channelStatus } from './reading.ts';
import { CHANNELS_MAX } from './readout-profile.ts';
import { breakRule, heldOpenS, tailS, triggerRule } from './rules.ts';
import { skew } from './second-readout.ts';
import { source } from './source.ts';

/**
 * `closed` no readout · `listening` readout open, nothing recorded · `ready` recording, waiting for the trigger ·
 * `pulling` · `broken` break marked, still recorded · `stopped` by hand, still recorded · `ended` record closed. A record that is
 * held open stays `broken` or `stopped` behind its tail, until it is put away or its time is over.
 */
export const SESSION_STATES = [
  'closed',
  'listening',
  'ready',
  'pulling',
  'broken',
  'stopped',
  'ended',
] as const;
export type SessionState = (typeof SESSION_STATES)[number];
export const sessionState = z.enum(SESSION_STATES);

/** The newest value of a channel. `value` is null where there is none to show; it is never the value before. */
export const liveValue = atFirstUse(() =>
  z.strictObject({
    key: z.string(),
    quantity: channelInfo.unwrap().shape.quantity,
    coreUnit: z.string(),
    value: z.number().nullable(),
    status: channelStatus,
    /** As the readout showed it, unit included: "1 234.5 lbf". */
    shownText: z.string().max(80),
    /** What one last digit of the readout is worth, in the core's unit; null where no number was shown. */
    resolution: z.number().positive().nullable(),
  }),
);
export type LiveValue = z.infer<typeof liveValue>;

export const sessionReadout = atFirstUse(() =>
  z.strictObject({
    source,
    /** "simulated frame, scenario …", "/dev/ttyUSB0 (…)". */
    words: z.string().max(TEXT_LENGTH_MAX),
    profileName: z.string().max(NAME_LENGTH_MAX),
    /** Of the profile, whatever it is called; the same for one that was only renamed. */
    profileId: z.string().max(64),
    channels: z.array(channelInfo).max(CHANNELS_MAX),
    /** `lost`: the port has gone and is looked for again, see `signal`. `finished`: a replay has come to its end. */
    link: z.enum(['open', 'lost', 'finished']),
    /** Lines since the readout was opened, and those of them that gave no reading, by reason. */
    lineCount: z.number().int().nonnegative(),
    misfitCount: z.record(z.string(), z.number().int().nonnegative()),
    readingsPerS: z.number().nonnegative(),
  }),
);

/** A flag beside the state: whether bytes keep coming. */
export const signal = z.strictObject({
  fresh: z.boolean(),
  /** Wall clock of the last reading; null before the first. */
  lastReadingWallMs: wallMs.nullable(),
  silentMs: z.number().nonnegative(),
});

/** A second instrument, open beside the first. */
export const sessionSecond = z.strictObject({ readout: sessionReadout, signal });

export const sessionPull = atFirstUse(() =>
  z.strictObject({
    pullId: rowId,
    specimenId: rowId,
    specimenName: z.string().max(NAME_LENGTH_MAX),
    startedWallMs: wallMs,
    trigger: triggerRule,
    breakRule,
    tailS,
    heldOpenS,
    /** Seconds since the record began, and since the trigger (null before). */
    recordS: z.number().nonnegative(),
    pullS: z.number().nonnegative().nullable(),
    readingCount: z.number().int().nonnegative(),
    /** Readings up to here (exclusive) are power-safe in the archive. */
    savedThroughSeq: readingSeq,
    triggerSeq: readingSeq.nullable(),
    breakSeq: readingSeq.nullable(),
    /** Seconds until the tail is over, 0 when it is; null while there is none, or where only a person ends it. */
    tailEndsInS: z.number().nonnegative().nullable(),
    /** After a marked break the load stands above the rule's limit again. */
    loadIsBack: z.boolean(),
    /** Seconds until the record closes by itself; null while none is planned. */
    closesInS: z.number().nonnegative().nullable(),
    /** Largest force so far since the record began. */
    peak: z.strictObject({ forceN: z.number(), seq: readingSeq, recordS: z.number() }).nullable(),
    /** Over about the last second; null without two readings. */
    forceRateNPerS: z.number().nullable(),
    extensionRateMmPerS: z.number().nullable(),
    /** How far a second instrument stands behind the load; null where there is none. */
    skew: skew.nullable().default(null),
    marks: z.array(mark).max(1000),
    gaps: z.array(gap).max(1000),
    /** Planned ends of the plot's axes, in core units. */
    plannedForceN: z.number().positive().nullable(),
    plannedExtensionMm: z.number().positive().nullable(),
  }),
);
export type SessionPull = z.infer<typeof sessionPull>;

export const session = atFirstUse(() =>
  z.strictObject({
    /** Grows with every snapshot of one recorder process. */
    revision: z.number().int().nonnegative(),
    wallMs,
    state: sessionState,
    readout: sessionReadout.nullable(),
    signal,
    second: sessionSecond.nullable().default(null),
    live: z.array(liveValue).max(2 * CHANNELS_MAX),
    /** Changes whenever values already sent would now be converted otherwise (zero): ask for all readings again. */
    basis: z.number().int().nonnegative(),
    pull: sessionPull.nullable(),
    notices: z.array(notice).max(100),
    archive: z.strictObject({
      path: z.string(),
      /** Why no pull can be recorded, where that is so. */
      fault: fault.nullable(),
      freeBytes: z.number().nonnegative().nullable(),
    }),
    recorder: z.strictObject({ pid: z.number().int(), startedWallMs: wallMs, programVersion: z.string() }),
  }),
);
export type Session = z.infer<typeof session>;
