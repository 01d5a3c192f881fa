/** Requests about sets: what they are, who is in them, the verdict on each specimen and on the whole. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { OUTCOMES } from '../acceptance/verdict.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { READINGS_ORIGINS } from '../pull/readings-origin.ts';
import type { Result } from '../results/result.ts';
import { frozenSet } from '../sets/set-form.ts';
import { MEMBER_STAGES, PULL_STATES } from '../sets/set-overview.ts';
import { resultMessage } from './evaluation.ts';
import { nothing, rowId, wallMs } from './message.ts';
import { FRACTURE_PLACES } from './record.ts';
import { rulesFolder } from './rule-pack-requests.ts';
import { page } from './specimen-requests.ts';
import { verdictMessage } from './verdict-message.ts';
import { pullVoid } from './void-requests.ts';

/** Address, accreditation, telephone: more lines push the certificate itself off its first page. */
const LABORATORY_LINES_MAX = 8;

const resultValue = z.custom<Result>((v) => resultMessage.safeParse(v).success, 'is no result');

const name = z.string().trim().min(1).max(NAME_LENGTH_MAX);
const reason = z.string().trim().min(1).max(TEXT_LENGTH_MAX);

export const setLine = atFirstUse(() =>
  z.strictObject({
    setId: rowId,
    name: z.string(),
    purpose: z.string(),
    rulePackId: z.string(),
    begunWallMs: wallMs,
    memberCount: z.number().int().nonnegative(),
  }),
);
export type SetLine = z.infer<typeof setLine>;

export const keptMember = atFirstUse(() =>
  z.strictObject({
    setMemberId: rowId,
    /** The specimen's newest correction, and as it was first kept. */
    specimenId: rowId,
    firstSpecimenId: rowId,
    specimenName: z.string(),
    retestOf: rowId.nullable(),
    retestReason: z.string().nullable(),
    voided: z.strictObject({ by: z.string(), reason: z.string() }).nullable(),
    /** The newest pull that counts, of the specimen or of what it was corrected from. */
    pullId: rowId.nullable(),
    /** Pulls that were made void, oldest first; they count no more. */
    voidedPulls: z.array(z.strictObject({ pullId: rowId, voided: pullVoid })).default([]),
  }),
);
export type KeptMember = z.infer<typeof keptMember>;

export const keptSet = atFirstUse(() =>
  z.strictObject({
    setId: rowId,
    set: frozenSet,
    savedWallMs: wallMs,
    by: z.string().nullable(),
    /** Why the set was corrected last; null for its first statement. */
    reason: z.string().nullable(),
    members: z.array(keptMember),
    /** Number of the last certificate of the whole set. */
    certificate: z.string().nullable(),
  }),
);
export type KeptSet = z.infer<typeof keptSet>;

/** A person's word over the rules, as it is kept. */
const keptOverride = atFirstUse(() =>
  z.strictObject({
    to: z.enum(OUTCOMES),
    person: z.string(),
    reason: z.string(),
    at: z.string().optional(),
  }),
);

export const memberVerdict = atFirstUse(() =>
  z.strictObject({
    setMemberId: rowId,
    specimenName: z.string(),
    stage: z.enum(MEMBER_STAGES),
    next: z.string().nullable(),
    pull: z.enum(PULL_STATES),
    /** Set where no specimen gave the readings. */
    readings: z.enum(READINGS_ORIGINS).optional(),
    /** Where it broke, as the standing note says. */
    place: z.enum(FRACTURE_PLACES).nullable(),
    /** The tensile strength that was judged; null where there is none. */
    strength: resultValue.nullable(),
    /** What counts: the last override, else the rules; null while it can't be judged at all. */
    outcome: z.enum(OUTCOMES).nullable(),
    outcomeOfRules: z.enum(OUTCOMES).nullable(),
    questionable: z.boolean(),
    sentence: z.string().nullable(),
    overrides: z.array(keptOverride),
    /** What the rules said, with everything they rest on; null while it can't be judged. */
    verdict: verdictMessage.nullable(),
    /** Why what was entered can't be judged at all. */
    faults: z.array(z.string()),
  }),
);
export type MemberVerdict = z.infer<typeof memberVerdict>;

const count = z.number().int().nonnegative();
const setCounts = z.strictObject({
  required: count.nullable(),
  specimens: count,
  measured: count,
  pulled: count,
  judged: count,
  accepted: count,
  rejected: count,
  missing: count.nullable(),
});

export const setRequests = {
  /** A form as in core/sets/set-form.ts; with `setId` a correction, which needs its reason. */
  'set.save': {
    request: atFirstUse(() =>
      z.strictObject({
        form: z.record(z.string(), z.unknown()),
        setId: rowId.optional(),
        reason: reason.optional(),
        by: name.optional(),
        rulesFolder,
      }),
    ),
    reply: z.strictObject({ setId: rowId }),
  },
  'set.list': {
    request: z.strictObject(page),
    reply: atFirstUse(() => z.strictObject({ items: z.array(setLine), nextCursor: rowId.nullable() })),
  },
  'set.get': { request: z.strictObject({ setId: rowId }), reply: keptSet },
  'set.join': {
    request: atFirstUse(() =>
      z.strictObject({
        setId: rowId,
        specimenId: rowId,
        retestOf: rowId.optional(),
        reason: reason.optional(),
        by: name.optional(),
      }),
    ),
    reply: z.strictObject({ setMemberId: rowId }),
  },
  'set.void-member': {
    request: z.strictObject({ setMemberId: rowId, by: name, reason }),
    reply: z.strictObject({}),
  },
  'set.override': {
    request: z.strictObject({ setMemberId: rowId, to: z.enum(OUTCOMES), person: name, reason }),
    reply: z.strictObject({}),
  },
  /** Judges every member by the pack kept with the set, from what the archive holds. */
  'set.judge': {
    request: z.strictObject({ setId: rowId, rulesFolder }),
    reply: atFirstUse(() =>
      z.strictObject({
        outcome: z.enum(OUTCOMES),
        sentence: z.string(),
        next: z.string().nullable(),
        counts: setCounts,
        missing: z.array(z.string()),
        remarks: z.array(z.string()),
        /** Where the number of specimens comes from; null where it isn't known. */
        required: z.strictObject({ count, clause: z.string().nullable(), says: z.string() }).nullable(),
        members: z.array(memberVerdict),
      }),
    ),
  },
  /** Where a specimen, or the one of a pull, is a member; the newest first. */
  'set.of-specimen': {
    request: atFirstUse(() => z.strictObject({ specimenId: rowId.optional(), pullId: rowId.optional() })),
    reply: atFirstUse(() =>
      z.strictObject({
        places: z.array(z.strictObject({ setId: rowId, setMemberId: rowId, setName: z.string() })),
        /** Of a specimen: its pulls that are not void, the newest first. */
        pullIds: z.array(rowId),
      }),
    ),
  },
  /** Who issues certificates here. */
  'laboratory.save': {
    request: atFirstUse(() => z.strictObject({ name, lines: z.array(name).max(LABORATORY_LINES_MAX) })),
    reply: nothing,
  },
  'laboratory.get': {
    request: nothing,
    reply: atFirstUse(() => z.strictObject({ name: z.string(), lines: z.array(z.string()) }).nullable()),
  },
} as const;
