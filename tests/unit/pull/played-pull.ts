/** A pull played force by force, for the tests of its states. */
import type { NewMark, PullRules, PullState } from '../../../core/pull/pull-state.ts';
import { newPull } from '../../../core/pull/pull-state.ts';
import { takeAct } from '../../../core/pull/take-act.ts';
import { takeReading } from '../../../core/pull/take-reading.ts';

export const RULES: PullRules = {
  trigger: { kind: 'force', thresholdN: 200, readings: 3 },
  breakRule: { kind: 'force-drop', fractionOfPeak: 0.2, readings: 2, peakTimesThreshold: 3, peakMinN: 100 },
  tailS: 3,
  heldOpenS: null,
};
export const STEP_US = 10_000;

/** Rises to 2 000 N; the trigger stands on reading 2. */
export const PULL = [0, 5, 300, 400, 500, 900, 2000];

/** Plays forces one after the other, 10 ms apart. */
export function play(
  forces: readonly number[],
  from: PullState = newPull(RULES),
): { state: PullState; marks: NewMark[] } {
  let state = from;
  const marks: NewMark[] = [];
  for (const forceN of forces) {
    const taken = takeReading(state, {
      seq: state.nextSeq,
      elapsedUs: (state.nextSeq + 1) * STEP_US,
      forceN,
    });
    state = taken.state;
    marks.push(...taken.marks);
  }
  return { state, marks };
}

export function act(state: PullState, what: Parameters<typeof takeAct>[1]): PullState {
  const outcome = takeAct(state, what, state.lastElapsedUs);
  if (!outcome.ok) throw new Error(outcome.refusal.sentence);
  return outcome.state;
}
