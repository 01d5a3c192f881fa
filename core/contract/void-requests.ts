/** Requests that make a pull void. It stays as it was recorded, visible for ever, and counts in no set any more. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { nothing, rowId, utcOffsetMinutes, wallMs } from './message.ts';

/** A person's word that a pull counts no more. It stays as it was recorded. */
export const pullVoid = z.strictObject({
  reason: z.string(),
  by: z.string().nullable(),
  wallMs,
  utcOffsetMinutes,
});
export type PullVoid = z.infer<typeof pullVoid>;

export const voidRequests = {
  /** Can't be taken back: a specimen that was pulled is pulled. Refused while the record is open. */
  'pull.void': {
    request: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        reason: z.string().trim().min(1).max(TEXT_LENGTH_MAX),
        by: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
      }),
    ),
    reply: nothing,
  },
} as const;
