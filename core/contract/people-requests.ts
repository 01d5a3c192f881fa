/** Requests about the people of this machine: name, short sign, roles, and a PIN where the laboratory wants one. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { nothing, rowId } from './message.ts';

/** Words of the trade for what a person does here. */
export const PERSON_ROLES = [
  'operator',
  'welding engineer',
  'inspector',
  'witness',
  'instructor',
  'student',
  'head of the laboratory',
] as const;
const PEOPLE_MAX = 500;

const name = z.string().trim().min(1).max(NAME_LENGTH_MAX);
/** Digits or any other signs; a longer one is a sentence, and as good. */
export const pin = z.string().min(4).max(64);

export const person = atFirstUse(() =>
  z.strictObject({
    personId: rowId,
    name: z.string(),
    sign: z.string(),
    roles: z.array(z.enum(PERSON_ROLES)),
    hasPin: z.boolean(),
    retired: z.boolean(),
  }),
);
export type Person = z.infer<typeof person>;

export const peopleRequests = {
  /** With `supersedes` a correction (a new name, another PIN, retired), which needs its reason and the PIN of before. */
  'people.save': {
    request: atFirstUse(() =>
      z.strictObject({
        name,
        sign: z.string().trim().min(1).max(12),
        roles: z.array(z.enum(PERSON_ROLES)).max(PERSON_ROLES.length),
        /** Absent: none, or the one of before. Null: none any more. */
        pin: pin.nullable().optional(),
        retired: z.boolean().optional(),
        supersedes: rowId.optional(),
        reason: z.string().trim().min(1).max(TEXT_LENGTH_MAX).optional(),
        pinBefore: pin.optional(),
      }),
    ),
    reply: z.strictObject({ personId: rowId }),
  },
  'people.list': {
    request: nothing,
    reply: atFirstUse(() => z.strictObject({ people: z.array(person).max(PEOPLE_MAX) })),
  },
} as const;
