/** The self-check as the window asks for it: published curves and worked examples through the installed program. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { TEXT_LENGTH_MAX } from '../limits.ts';
import { nothing } from './message.ts';

const text = z.string().max(TEXT_LENGTH_MAX);

/** One check, see core/self-check/self-check-case.ts; values in `unit`, a text where the unit is "text". */
export const selfCheckLine = atFirstUse(() =>
  z.strictObject({
    group: text,
    source: text,
    status: z.enum(['printed', 'derived']),
    what: text,
    unit: text,
    expected: z.union([z.number(), text]),
    got: z.union([z.number(), text]).nullable(),
    difference: z.number().nullable(),
    tolerance: z.number().nonnegative(),
    toleranceReason: text,
    verdict: z.enum(['agrees', 'differs', 'no-value']),
    reason: text.optional(),
  }),
);
export type SelfCheckLineSent = z.infer<typeof selfCheckLine>;

export const selfCheckRequests = {
  'program.self-check': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({
        programVersion: text,
        method: text,
        platform: text,
        agreeing: z.number().int().nonnegative(),
        failing: z.number().int().nonnegative(),
        lines: z.array(selfCheckLine),
      }),
    ),
  },
} as const;
