/** The rules that mark the beginning and the end of a pull by themselves, stated by name and figures. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { RECORD_AFTER_BREAK_MS_MAX } from '../limits.ts';

/** Consecutive readings that a rule may ask for; at 10 readings/s more would come seconds late. */
export const RULE_READINGS_MAX = 100;

export const triggerRule = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('force'),
      /** N, tension positive. */
      thresholdN: z.number().positive().max(1e9),
      /** Consecutive readings at or above the threshold; the mark stands on the first of them. */
      readings: z.number().int().min(1).max(RULE_READINGS_MAX),
    }),
    z.strictObject({ kind: z.literal('by-hand') }),
  ]),
);
export type TriggerRule = z.infer<typeof triggerRule>;

export const breakRule = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('force-drop'),
      /** Broken when the force is at or below this part of the peak since the trigger. */
      fractionOfPeak: z.number().min(0.01).max(0.99),
      readings: z.number().int().min(1).max(RULE_READINGS_MAX),
      /** The peak must have reached this many times the trigger's threshold, or `peakMinN` where it is by hand. */
      peakTimesThreshold: z.number().min(1).max(1000),
      peakMinN: z.number().nonnegative().max(1e9),
    }),
    z.strictObject({ kind: z.literal('by-hand') }),
  ]),
);
export type BreakRule = z.infer<typeof breakRule>;

/**
 * The tail, in seconds after the break or the stop: when it is over the record closes by itself, or, where it is held
 * open, the page moves on. Null: by hand only.
 */
export const tailS = z.number().min(0.5).max(600).nullable();

/**
 * Seconds after a break or a stop for which the record is held open, tail included: so long either can be taken back
 * unless a person puts the record away before. Null: nobody is there to do so, and the record closes with its tail.
 */
export const heldOpenS = z
  .number()
  .min(0.5)
  .max(RECORD_AFTER_BREAK_MS_MAX / 1000)
  .nullable();

export const DEFAULT_TRIGGER: TriggerRule = { kind: 'force', thresholdN: 200, readings: 3 };
export const DEFAULT_BREAK: BreakRule = {
  kind: 'force-drop',
  fractionOfPeak: 0.2,
  readings: 2,
  peakTimesThreshold: 3,
  peakMinN: 100,
};
export const DEFAULT_TAIL_S = 3;
