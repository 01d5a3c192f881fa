/**
 * Requests about evaluations that are kept. One is never changed: another takes its place, names the one it
 * supersedes, and says who, when and why. Without any, a pull stands as it was recorded.
 */
import { z } from 'zod';
import { OUTCOMES } from '../acceptance/verdict.ts';
import { atFirstUse } from '../at-first-use.ts';
import {
  CERTIFICATES_LOOKED_AT_MAX,
  EVALUATIONS_PER_PULL_MAX,
  NAME_LENGTH_MAX,
  TEXT_LENGTH_MAX,
} from '../limits.ts';
import { type UnitSymbol, UNITS } from '../quantity/units.ts';
import { SET_MEMBERS_MAX } from '../sets/set-form.ts';
import { certified, paperLanguage } from './certificate-requests.ts';
import { TABLE_POINTS_MAX, evaluationOptions } from './evaluation-options.ts';
import { rowId, wallMs } from './message.ts';
import { verdictMessage } from './verdict-message.ts';

/** Files that an option was read from: force table, extension table, blank run, options; a few of each at most. */
const SOURCES_MAX = 10;
/** Results of one evaluation; offsets and extensions under load come to a hundred at most. */
const VALUES_MAX = 300;

/** Pulls whose values are asked for together. */
export const KNOWN_PULLS_MAX = 500;

/** Where a table came from, so that it can be found again. */
export const optionSource = atFirstUse(() =>
  z.strictObject({
    /** "calibration table of the force", "blank run". */
    what: z.string().min(1).max(NAME_LENGTH_MAX),
    name: z.string().min(1).max(NAME_LENGTH_MAX),
    sha256: z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 hash has 64 hexadecimal digits'),
  }),
);
export type OptionSource = z.infer<typeof optionSource>;

/** A value as the evaluation gave it when it was kept. */
export const keptValue = atFirstUse(() =>
  z.strictObject({
    symbol: z.string().min(1).max(NAME_LENGTH_MAX),
    value: z.number(),
    unit: z.custom<UnitSymbol>((v) => typeof v === 'string' && Object.hasOwn(UNITS, v), 'unknown unit'),
  }),
);
export type KeptValue = z.infer<typeof keptValue>;
export const keptValues = z.array(keptValue).max(VALUES_MAX);
export const optionSources = z.array(optionSource).max(SOURCES_MAX);

export const keptEvaluation = atFirstUse(() =>
  z.strictObject({
    evaluationId: rowId,
    pullId: rowId,
    /** The specimen record with its newest correction at that time. */
    specimenId: rowId,
    options: evaluationOptions,
    sources: optionSources,
    values: keptValues,
    methodVersion: z.string(),
    programVersion: z.string(),
    keptWallMs: wallMs,
    by: z.string().nullable(),
    /** Null: it took the place of the pull as recorded. */
    supersedes: rowId.nullable(),
    reason: z.string(),
  }),
);
export type KeptEvaluation = z.infer<typeof keptEvaluation>;

/** The results that the newest certificate about a pull was issued with. */
export const certifiedValues = z.strictObject({
  number: z.string(),
  issuedWallMs: wallMs,
  values: keptValues,
  methodVersion: z.string(),
});
export type CertifiedValues = z.infer<typeof certifiedValues>;

export const certificateOnPull = atFirstUse(() =>
  z.strictObject({
    number: z.string(),
    issuedWallMs: wallMs,
    about: certified,
    /** As the set is called today; null where it is of a pull in no set. */
    setName: z.string().nullable(),
    language: paperLanguage,
  }),
);
export type CertificateOnPull = z.infer<typeof certificateOnPull>;

/** Certificates that rest on a pull: of each subject and language the newest one, the newest of all first. */
export const certificatesOfPull = z.strictObject({
  newest: z.array(certificateOnPull).max(CERTIFICATES_LOOKED_AT_MAX),
  /** Older ones that are not listed. */
  beyond: z.number().int().nonnegative(),
});
export type CertificatesOfPull = z.infer<typeof certificatesOfPull>;

/** What a program gave of a pull that stood as recorded when it first worked it out, by the sizes of today. */
export const firstStated = z.strictObject({
  values: keptValues,
  methodVersion: z.string(),
  programVersion: z.string(),
  statedWallMs: wallMs,
});
export type FirstStated = z.infer<typeof firstStated>;

/** By one rule pack. */
const ruledVerdict = z.strictObject({
  /** Name and edition of the pack. */
  rules: z.string(),
  /** Null while it can't be judged at all: then `faults` say why. */
  verdict: verdictMessage.nullable(),
  faults: z.array(z.string()),
});
export type RuledVerdict = z.infer<typeof ruledVerdict>;

const setOutcome = z.strictObject({ outcome: z.enum(OUTCOMES), sentence: z.string() });

export const evaluationRequests = {
  /** Works the pull out by exactly these options and keeps that as what stands. Empty options: back to as recorded. */
  'evaluation.keep': {
    request: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        options: evaluationOptions,
        sources: optionSources.optional(),
        /** The one that stood when the person decided; null where the pull stood as recorded. */
        supersedes: rowId.nullable(),
        reason: z.string().trim().min(1).max(TEXT_LENGTH_MAX),
        by: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
      }),
    ),
    reply: z.strictObject({ evaluationId: rowId }),
  },
  /**
   * What was stated of a pull: the evaluation that stands, the newest certificate, and what it was first worked out as by
   * the sizes of today, null where there is none; and which certificates rest on it.
   */
  'evaluation.stated': {
    request: z.strictObject({ pullId: rowId }),
    reply: atFirstUse(() =>
      z.strictObject({
        standing: keptEvaluation.nullable(),
        certified: certifiedValues.nullable(),
        certificates: certificatesOfPull,
        first: firstStated.nullable(),
      }),
    ),
  },
  /**
   * What evaluating each of these pulls as it stands would give, of those of which this very program has noted it; the
   * others have to be evaluated.
   */
  'evaluation.known': {
    request: z.strictObject({ pullIds: z.array(rowId).max(KNOWN_PULLS_MAX) }),
    reply: atFirstUse(() =>
      z.strictObject({ items: z.array(z.strictObject({ pullId: rowId, values: keptValues })) }),
    ),
  },
  /** What frame and grips gave in a pull with a stiff bar in the place of the specimen, for the evaluation of another. */
  'evaluation.blank-run': {
    request: z.strictObject({ pullId: rowId }),
    reply: atFirstUse(() =>
      z.strictObject({
        points: z
          .array(z.strictObject({ forceN: z.number(), travelMm: z.number() }))
          .min(2)
          .max(TABLE_POINTS_MAX),
        /** "pull 12, stiff bar" */
        name: z.string().max(NAME_LENGTH_MAX),
        /** Of the raw bytes of that pull. */
        sha256: z.string().max(64),
      }),
    ),
  },
  /** What the rules say of a pull of a set, as it stands and by these options; an override of a person has no say here. */
  'evaluation.judge': {
    request: z.strictObject({ pullId: rowId, options: evaluationOptions.optional() }),
    reply: atFirstUse(() =>
      z.strictObject({
        /** The newest set that the pull is in; null where it is in none, and nothing is judged. */
        setName: z.string().nullable(),
        before: ruledVerdict.nullable(),
        /** Null where no options were given. */
        after: ruledVerdict.nullable(),
      }),
    ),
  },
  /**
   * A set by what was stated of these pulls before, and as this program judges it with these evaluated by `options`; the
   * rules, fractures and overrides are those of today both times, so that what differs comes of the values.
   */
  'evaluation.judge-set': {
    request: atFirstUse(() =>
      z.strictObject({
        setId: rowId,
        pulls: z
          .array(z.strictObject({ pullId: rowId, stated: keptValues, options: evaluationOptions }))
          .max(SET_MEMBERS_MAX),
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        setName: z.string(),
        before: setOutcome,
        after: setOutcome,
        /** Those with a verdict in one of both. */
        members: z.array(
          z.strictObject({
            setMemberId: rowId,
            pullId: rowId.nullable(),
            specimenName: z.string(),
            before: z.enum(OUTCOMES).nullable(),
            after: z.enum(OUTCOMES).nullable(),
          }),
        ),
      }),
    ),
  },
  /** All that were kept, oldest first; the last one stands. */
  'evaluation.history': {
    request: z.strictObject({ pullId: rowId }),
    reply: atFirstUse(() =>
      z.strictObject({ evaluations: z.array(keptEvaluation).max(EVALUATIONS_PER_PULL_MAX) }),
    ),
  },
} as const;
