/** A person overrules a verdict: with name and reason, and with the verdict of the rules staying visible for ever. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { OUTCOMES, type Outcome, type Verdict } from './verdict.ts';

export const override = atFirstUse(() =>
  z.strictObject({
    to: z.enum(OUTCOMES),
    person: z.string().trim().min(1, 'say who decides').max(NAME_LENGTH_MAX),
    reason: z.string().trim().min(1, 'say why').max(TEXT_LENGTH_MAX),
    /** Wall-clock time, ISO 8601 with offset; the caller has the clock. */
    at: z.iso.datetime({ offset: true }).optional(),
  }),
);
export type Override = z.output<typeof override>;

export interface DecidedVerdict {
  /** What counts: the last override, else the verdict of the rules. */
  readonly outcome: Outcome;
  /** What the rules said, never changed. */
  readonly verdict: Verdict;
  /** In the order they were given. */
  readonly overrides: readonly Override[];
  readonly sentence: string;
}

export function decidedVerdict(verdict: Verdict, overrides: readonly Override[] = []): DecidedVerdict {
  const last = overrides.at(-1);
  if (last === undefined) return { outcome: verdict.outcome, verdict, overrides, sentence: verdict.sentence };
  return {
    outcome: last.to,
    verdict,
    overrides,
    sentence: `Decided by ${last.person} as "${last.to}": ${last.reason.replace(/\.$/, '')}. The rules said: ${verdict.sentence}`,
  };
}
