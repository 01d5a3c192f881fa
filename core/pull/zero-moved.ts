/**
 * A zero counts for the whole record, also for what was recorded before it was taken: what was told of the load until
 * then moves with it. Without that, the weight of the grips would stay the largest load of a weaker specimen.
 */
import type { Peak } from './lone-peak.ts';
import { NO_RUN } from './detectors.ts';
import type { PullState } from './pull-state.ts';

/** `byN`: the new zero of the load less the one before. Before the trigger only. */
export function withZeroMoved(state: PullState, byN: number): PullState {
  const moved = (peak: Peak | null): Peak | null =>
    peak === null ? null : { ...peak, forceN: peak.forceN - byN };
  const { sure, doubtful, beforeN } = state.peak;
  return {
    ...state,
    triggerRun: NO_RUN,
    largest: moved(state.largest),
    peak: {
      sure: moved(sure),
      doubtful: moved(doubtful),
      beforeN: beforeN === null ? null : beforeN - byN,
    },
  };
}
