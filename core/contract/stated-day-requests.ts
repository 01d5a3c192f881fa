/** The day on which an imported pull was made, as a person states it. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { type StatedDay, statedDay } from '../pull/stated-day.ts';
import { rowId, wallMs } from './message.ts';

/** The newest of a pull stands. */
export const keptStatedDay = z.strictObject({
  statedDayId: rowId,
  pulledOn: statedDay,
  by: z.string().nullable(),
  wallMs,
  supersedes: rowId.nullable(),
  reason: z.string().nullable(),
}) satisfies z.ZodType<StatedDay>;

export const statedDayRequests = {
  /** Of an imported pull only. The second time a reason is needed; what was stated before stays visible. */
  'pull.state-day': {
    request: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        pulledOn: statedDay,
        by: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
        reason: z.string().trim().min(1).max(TEXT_LENGTH_MAX).optional(),
      }),
    ),
    reply: z.strictObject({ statedDayId: rowId }),
  },
} as const;
