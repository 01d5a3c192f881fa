/** The state of an open record, worked out again from what is kept of it: its marks and its readings. */
import type { Mark } from '../contract/record.ts';
import type { SeenReading } from './detectors.ts';
import { type PullRules, type PullState, newPull } from './pull-state.ts';
import { takeReading } from './take-reading.ts';
import { withZeroTaken } from './zero-taken.ts';
import { type PullAct, takeAct } from './take-act.ts';

const ACT_OF_MARK: Partial<Record<Mark['kind'], PullAct>> = {
  trigger: 'start',
  break: 'mark-break',
  'undo-break': 'undo-break',
  stop: 'stop',
  continue: 'continue',
  'record-ends': 'close',
};

/**
 * Plays the readings through the same rules and the acts of people between them, so that the state after a
 * crash is the state before it. Marks that the rules made come out again by themselves and are not played.
 * @param readings as they were seen: each by the zero of its time
 * @param zeroSeqs reading before which a zero of the load was taken, ascending
 */
export function recoverState(
  rules: PullRules,
  marks: readonly Mark[],
  readings: Iterable<SeenReading>,
  zeroSeqs: readonly number[] = [],
): PullState {
  const acts = marks.filter((mark) => mark.cause === 'person' && ACT_OF_MARK[mark.kind] !== undefined);
  let state = newPull(rules);
  let next = 0;
  const playActsUpTo = (seq: number): void => {
    for (let mark = acts[next]; mark !== undefined && mark.seq <= seq; mark = acts[++next]) {
      const act = ACT_OF_MARK[mark.kind];
      if (act === undefined) continue;
      const outcome = takeAct(state, act, mark.elapsedUs);
      // An act that no longer fits was refused then as well, or its mark was kept and its reading was not.
      if (outcome.ok) state = outcome.state;
    }
  };
  let zero = 0;
  for (const reading of readings) {
    for (; (zeroSeqs[zero] ?? Infinity) <= reading.seq; zero++) state = withZeroTaken(state);
    playActsUpTo(reading.seq);
    if (state.state === 'ended') return state;
    state = takeReading(state, reading).state;
  }
  if (zero < zeroSeqs.length) state = withZeroTaken(state);
  playActsUpTo(Number.MAX_SAFE_INTEGER);
  return state;
}
