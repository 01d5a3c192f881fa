/** One specimen's place in a set. A specimen joins once; leaving is a void with a reason, never a removal. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';

const reason = z.string().trim().min(1, 'say why').max(TEXT_LENGTH_MAX);

export const setMember = atFirstUse(() =>
  z.strictObject({
    specimenId: z.string().min(1).max(NAME_LENGTH_MAX),
    /** The specimen that this one replaces or follows, and why. */
    retest: z.strictObject({ of: z.string().min(1).max(NAME_LENGTH_MAX), reason }).optional(),
    /** Set aside: stays visible, doesn't count. */
    voided: z.strictObject({ by: z.string().trim().min(1).max(NAME_LENGTH_MAX), reason }).optional(),
  }),
);
export type SetMemberForm = z.output<typeof setMember>;
