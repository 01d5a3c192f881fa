/**
 * A zero taken before the load comes on: what stood on the channel until then (the weight of the grips, a zero of
 * another set-up) was no load of this specimen, so peak and trigger begin anew. The readings stay as they were sent.
 */
import { NO_PEAK } from './lone-peak.ts';
import { NO_RUN } from './detectors.ts';
import type { PullState } from './pull-state.ts';

/** Before the trigger only. */
export function withZeroTaken(state: PullState): PullState {
  return { ...state, triggerRun: NO_RUN, largest: null, peak: NO_PEAK };
}
