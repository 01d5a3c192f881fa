/** Requests about specimens. A specimen once kept is never changed: a correction is a new one that names it. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, PULLS_PER_SPECIMEN_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { rowId, wallMs } from './message.ts';

export const page = {
  /** Where the last answer ended; absent for the newest. */
  cursor: rowId.optional(),
  limit: z.number().int().min(1).max(500),
  search: z.string().max(NAME_LENGTH_MAX).optional(),
};

export const keptSpecimen = atFirstUse(() =>
  z.strictObject({
    specimenId: rowId,
    specimen: specimenFile,
    savedWallMs: wallMs,
    by: z.string().max(NAME_LENGTH_MAX).nullable(),
    supersedes: rowId.nullable(),
    supersededBy: rowId.nullable(),
    reason: z.string().max(TEXT_LENGTH_MAX).nullable(),
  }),
);
export type KeptSpecimen = z.infer<typeof keptSpecimen>;

/** A kept specimen in a list, with how often it was pulled, in any of its corrections. */
const listedSpecimen = atFirstUse(() =>
  keptSpecimen.unwrap().extend({
    /** That are not void. */
    pulls: z.int().nonnegative(),
    voidPulls: z.int().nonnegative(),
  }),
);
export type ListedSpecimen = z.infer<typeof listedSpecimen>;

/** An evaluation that was kept because the sizes it rested on were corrected. */
const evaluatedAnew = z.strictObject({ pullId: rowId, evaluationId: rowId, supersedes: rowId });
export type EvaluatedAnew = z.infer<typeof evaluatedAnew>;

const pullOfSpecimen = z.strictObject({
  pullId: rowId,
  /** The evaluation that stands; null where the pull stands as recorded. */
  standing: rowId.nullable(),
});
export type PullOfSpecimen = z.infer<typeof pullOfSpecimen>;

export const specimenRequests = {
  /**
   * A correction keeps with it, or not at all, an evaluation in the place of each that stands on a pull of the specimen
   * that is not void: by the same options, with the same reason and person. What they would give is told before by
   * `pull.evaluate` with this specimen.
   */
  'specimen.save': {
    /** `supersedes` needs a `reason`. The lengths must carry their units. */
    request: atFirstUse(() =>
      z.strictObject({
        specimen: specimenFile,
        supersedes: rowId.optional(),
        reason: z.string().trim().min(1).max(TEXT_LENGTH_MAX).optional(),
        by: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
      }),
    ),
    reply: z.strictObject({
      specimenId: rowId,
      /** Empty where it is no correction, or no evaluation stood. */
      evaluations: z.array(evaluatedAnew).max(PULLS_PER_SPECIMEN_MAX),
    }),
  },
  /** The pulls of a specimen, in any of its corrections, that are not void; those with a kept evaluation first. */
  'specimen.pulls': {
    request: z.strictObject({ specimenId: rowId }),
    reply: z.strictObject({ pulls: z.array(pullOfSpecimen).max(PULLS_PER_SPECIMEN_MAX) }),
  },
  'specimen.get': { request: z.strictObject({ specimenId: rowId }), reply: keptSpecimen },
  /** Newest first; superseded ones are left out. */
  'specimen.list': {
    request: z.strictObject(page),
    reply: atFirstUse(() => z.strictObject({ items: z.array(listedSpecimen), nextCursor: rowId.nullable() })),
  },
} as const;
