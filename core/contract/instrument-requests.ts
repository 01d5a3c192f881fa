/** Requests about the register of instruments: entering, correcting, calibrating, and what a pull must know of them. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { CALIBRATION_STATES, calibrationForm, day } from '../instruments/calibration.ts';
import { instrumentForm } from '../instruments/instrument.ts';
import { INSTRUMENTS_PER_PULL_MAX, pullInstruments } from '../instruments/pull-instruments.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { nothing, rowId, wallMs } from './message.ts';
import { readoutProfile } from './readout-profile.ts';
import { pullSource } from './source.ts';

/** A laboratory has a handful of frames and some dozens of instruments. */
export const INSTRUMENTS_MAX = 500;
/** One a year and its corrections, for longer than an instrument lives. */
export const CALIBRATIONS_PER_INSTRUMENT_MAX = 200;

const by = z.string().trim().min(1).max(NAME_LENGTH_MAX).optional();
const reason = z.string().trim().min(1).max(TEXT_LENGTH_MAX).optional();

export const keptCalibration = atFirstUse(() =>
  z.strictObject({
    calibrationId: rowId,
    form: calibrationForm,
    keptWallMs: wallMs,
    by: z.string().nullable(),
    supersedes: rowId.nullable(),
    /** Null where it stands. */
    supersededBy: rowId.nullable(),
    reason: z.string().nullable(),
  }),
);
export type KeptCalibration = z.infer<typeof keptCalibration>;

export const keptInstrument = atFirstUse(() =>
  z.strictObject({
    instrumentId: rowId,
    /** What is said of it now; a correction names this one. */
    statementId: rowId,
    form: instrumentForm,
    retired: z.boolean(),
    keptWallMs: wallMs,
    by: z.string().nullable(),
    reason: z.string().nullable(),
  }),
);
export type KeptInstrument = z.infer<typeof keptInstrument>;

/** An instrument in a list, with the calibration that counts today (without its worksheet). */
export const instrumentLine = atFirstUse(() =>
  z.strictObject({
    ...keptInstrument.unwrap().shape,
    calibration: keptCalibration.nullable(),
    state: z.enum(CALIBRATION_STATES),
    /** Until it is due; negative afterwards, null without a calibration. */
    daysLeft: z.int().nullable(),
  }),
);
export type InstrumentLine = z.infer<typeof instrumentLine>;

export const instrumentChoice = z.array(rowId).max(INSTRUMENTS_PER_PULL_MAX);

export const instrumentRequests = {
  /** With `supersedes` (the statement that stands) a correction, which needs its reason; `retired` takes it out of use. */
  'instrument.save': {
    request: atFirstUse(() =>
      z.strictObject({
        form: instrumentForm,
        supersedes: rowId.optional(),
        retired: z.boolean().optional(),
        reason,
        by,
      }),
    ),
    reply: z.strictObject({ instrumentId: rowId }),
  },
  'instrument.list': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({ on: day, instruments: z.array(instrumentLine).max(INSTRUMENTS_MAX) }),
    ),
  },
  /** One with everything that was ever entered of its calibrations, oldest first. */
  'instrument.get': {
    request: z.strictObject({ instrumentId: rowId }),
    reply: atFirstUse(() =>
      z.strictObject({
        instrument: instrumentLine,
        calibrations: z.array(keptCalibration).max(CALIBRATIONS_PER_INSTRUMENT_MAX),
        /** Pulls that it measured, newest first; a bounded number of them, and how many there are. */
        pulls: z.array(z.strictObject({ pullId: rowId, state: z.enum(CALIBRATION_STATES) })),
        pullCount: z.int().nonnegative(),
      }),
    ),
  },
  /** With `supersedes` in the place of one that was entered wrongly, which needs its reason. */
  'instrument.calibrate': {
    request: z.strictObject({
      instrumentId: rowId,
      form: calibrationForm,
      supersedes: rowId.optional(),
      reason,
      by,
    }),
    reply: z.strictObject({ calibrationId: rowId }),
  },
  /** What a pull that is made ready now would keep. Without source and profile those of the open readout. */
  'instrument.before-start': {
    request: atFirstUse(() =>
      z.strictObject({
        instruments: instrumentChoice,
        source: pullSource.optional(),
        profile: readoutProfile.optional(),
      }),
    ),
    reply: atFirstUse(() => pullInstruments.unwrap().omit({ confirmed: true })),
  },
} as const;
