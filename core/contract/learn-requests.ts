/** Learning the lines of a readout: from a port that is talking, or from a file of recorded bytes. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { fault, nothing } from './message.ts';
import {
  CHANNELS_MAX,
  CHANNEL_QUANTITIES,
  controlLines,
  readoutProfile,
  serialSettings,
} from './readout-profile.ts';
import { previewLine } from './readout-requests.ts';
import { learnableSource } from './source.ts';

/** Lines shown raw and parsed beside each other with a proposal. */
export const LEARNT_LINES_SHOWN_MAX = 30;

export const learntChannel = atFirstUse(() =>
  z.strictObject({
    field: z.string().min(1).max(NAME_LENGTH_MAX),
    /** Null where the lines don't tell. */
    quantity: z.enum(CHANNEL_QUANTITIES).nullable(),
    unit: z.string().max(20).nullable(),
    /** Said by the readout itself rather than guessed from how the numbers move. */
    isSaid: z.boolean(),
  }),
);

export const learntProposal = atFirstUse(() =>
  z.strictObject({
    profile: readoutProfile,
    confidence: z.number().min(0).max(1),
    channels: z.array(learntChannel).max(CHANNELS_MAX),
    readings: z.int().nonnegative(),
    rejected: z.int().nonnegative(),
    remarks: z.array(z.string().max(TEXT_LENGTH_MAX)).max(40),
  }),
);
export type LearntProposal = z.infer<typeof learntProposal>;

/** How far learning is. A snapshot that stands by itself. */
export const learning = atFirstUse(() =>
  z.strictObject({
    state: z.enum(['listening', 'done', 'stopped', 'failed']),
    /** Where from, in words: the address of the source, or the name of the file. */
    from: z.string().max(4096),
    /** What is listened to; null for a file. */
    source: learnableSource.nullable(),
    /** Line settings that are listened to now (null where the source has none), and how many were before. */
    settings: serialSettings.nullable(),
    tried: z.int().nonnegative(),
    bytes: z.int().nonnegative(),
    proposal: learntProposal.nullable(),
    /** The first lines as the proposal reads them. */
    lines: z.array(previewLine).max(LEARNT_LINES_SHOWN_MAX),
    fault: fault.nullable(),
  }),
);
export type LearningState = z.infer<typeof learning>;

export const learnRequests = {
  /**
   * Listens to a port at one line setting after the other, or to a device server; what is found is told by `learning`
   * events. Refused while a pull is recorded or a file is learned from. An open readout is closed first.
   */
  'readout.learn-port': {
    request: atFirstUse(() =>
      z.strictObject({
        source: learnableSource,
        /** Set after each opening, and kept in the proposal. */
        controlLines: controlLines.optional(),
        /** Tried first. */
        baudRate: serialSettings.unwrap().shape.baudRate.optional(),
      }),
    ),
    reply: nothing,
  },
  /** The same from recorded bytes; answers with the outcome. Refused while another file or a port is learned from. */
  'readout.learn-file': {
    request: atFirstUse(() => z.strictObject({ file: z.string().min(1).max(4096) })),
    reply: learning,
  },
  /** Ends the listening, or the learning from a file; what was found so far is not proposed. */
  'readout.stop-learning': { request: nothing, reply: nothing },
  /** Null before anything was learned by this recorder. */
  'readout.learning': { request: nothing, reply: z.strictObject({ learning: learning.nullable() }) },
} as const;
