/** A pull on a frame without a port: what its display showed is typed by a person. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX } from '../limits.ts';
import { typedValues } from '../pull/typed-values.ts';
import { instrumentChoice } from './instrument-requests.ts';
import { rowId } from './message.ts';

export const typedPullRequests = {
  /**
   * Kept as an ended pull without readings. An impossible value is refused; an improbable one too (code
   * `typed-value-asked`) unless `sure` says that a person has looked again.
   */
  'pull.type': {
    request: atFirstUse(() =>
      z.strictObject({
        specimenId: rowId,
        typed: typedValues,
        operator: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
        sure: z.boolean().optional(),
        /** Instruments of the register that it was measured with, one of each kind. */
        instruments: instrumentChoice.optional(),
      }),
    ),
    reply: z.strictObject({ pullId: rowId }),
  },
} as const;
