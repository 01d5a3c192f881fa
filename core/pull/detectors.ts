/**
 * The two detectors of a pull. Both are fed reading by reading, look at nothing else, and name the reading on
 * which their mark stands. A reading without a force (overload, blank, garbled) neither counts nor starts over.
 */
import type { BreakRule, TriggerRule } from '../contract/rules.ts';
import { breakPeakMinN } from './rule-words.ts';

export interface SeenReading {
  readonly seq: number;
  readonly elapsedUs: number;
  /** N, tension positive; NaN where the reading has no force. */
  readonly forceN: number;
}

/** Consecutive readings that satisfy a rule so far, and the first of them. */
export interface Run {
  readonly count: number;
  readonly first: SeenReading | null;
}
export const NO_RUN: Run = { count: 0, first: null };

/** One reading more: the run goes on, starts over, or stays as it was where there is no force. */
export function extendRun(run: Run, reading: SeenReading, holds: boolean): Run {
  if (Number.isNaN(reading.forceN)) return run;
  return holds ? { count: run.count + 1, first: run.first ?? reading } : NO_RUN;
}

/** Whether the trigger's condition holds for one force. */
export function triggerHolds(rule: TriggerRule, forceN: number): boolean {
  return rule.kind === 'force' && forceN >= rule.thresholdN;
}

/** Whether the break's condition holds for one force, given the peak since the trigger. */
export function breakHolds(rule: BreakRule, trigger: TriggerRule, forceN: number, peakN: number): boolean {
  return (
    rule.kind === 'force-drop' &&
    peakN >= breakPeakMinN(rule, trigger) &&
    forceN <= rule.fractionOfPeak * peakN
  );
}
