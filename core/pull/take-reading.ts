/** One reading more: peaks, the trigger, the break, the closing of the record after its tail. */
import { type SeenReading, NO_RUN, breakHolds, extendRun, triggerHolds } from './detectors.ts';
import type { NewMark, Peak, PullState } from './pull-state.ts';
import { breakWords, triggerWords } from './rule-words.ts';

export interface Taken {
  readonly state: PullState;
  readonly marks: readonly NewMark[];
}

/**
 * Takes the next reading of an open record. `reading.seq` must be `state.nextSeq` and the record must be open:
 * anything else is a bug of the caller and throws a RangeError.
 */
export function takeReading(before: PullState, reading: SeenReading): Taken {
  if (reading.seq !== before.nextSeq)
    throw new RangeError(`reading ${reading.seq} came where ${before.nextSeq} was due`);
  if (before.state === 'ended') throw new RangeError('a reading came after the record had ended');
  const state: PullState = {
    ...before,
    nextSeq: before.nextSeq + 1,
    lastElapsedUs: reading.elapsedUs,
    peak: largerPeak(before.peak, reading),
    peakSinceTrigger: before.trigger === null ? null : largerPeak(before.peakSinceTrigger, reading),
  };
  switch (state.state) {
    case 'ready':
      return watchForTrigger(state, reading);
    case 'pulling':
      return watchForBreak(state, reading);
    case 'broken':
      return watchForReturn(state, reading);
    case 'stopped':
    case 'ended':
      return { state, marks: [] };
  }
}

function watchForTrigger(state: PullState, reading: SeenReading): Taken {
  const { trigger: rule } = state.rules;
  const run = extendRun(state.triggerRun, reading, triggerHolds(rule, reading.forceN));
  if (rule.kind !== 'force' || run.count < rule.readings || run.first === null)
    return { state: { ...state, triggerRun: run }, marks: [] };
  const at = { seq: run.first.seq, elapsedUs: run.first.elapsedUs };
  return {
    state: {
      ...state,
      state: 'pulling',
      triggerRun: NO_RUN,
      trigger: at,
      // The run's readings are all at or above the threshold, and the record's peak lies among or before them.
      peakSinceTrigger: largerPeak(peakOf(run.first), reading),
    },
    marks: [{ kind: 'trigger', ...at, cause: 'rule', words: triggerWords(rule) }],
  };
}

function watchForBreak(state: PullState, reading: SeenReading): Taken {
  const { breakRule: rule, trigger } = state.rules;
  const peakN = state.peakSinceTrigger?.forceN ?? 0;
  const holds = breakHolds(rule, trigger, reading.forceN, peakN);
  const breakArmed = state.breakArmed || (!Number.isNaN(reading.forceN) && !holds);
  const run = breakArmed ? extendRun(state.breakRun, reading, holds) : NO_RUN;
  if (rule.kind !== 'force-drop' || run.count < rule.readings || run.first === null)
    return { state: { ...state, breakArmed, breakRun: run }, marks: [] };
  const at = { seq: run.first.seq, elapsedUs: run.first.elapsedUs };
  return {
    state: broken({ ...state, breakArmed }, at),
    marks: [{ kind: 'break', ...at, cause: 'rule', words: breakWords(rule, peakN) }],
  };
}

/** A force that comes back after a break puts off the closing of the record: a person decides then. */
function watchForReturn(state: PullState, reading: SeenReading): Taken {
  const { breakRule: rule } = state.rules;
  if (rule.kind !== 'force-drop') return { state, marks: [] };
  const peakN = state.peakSinceTrigger?.forceN ?? 0;
  const run = extendRun(state.returnRun, reading, reading.forceN > rule.fractionOfPeak * peakN && peakN > 0);
  const closesAtUs = run.count >= rule.readings ? null : state.closesAtUs;
  return { state: { ...state, returnRun: run, closesAtUs }, marks: [] };
}

/** The state after a break at `at`; the tail counts from there. */
export function broken(
  state: PullState,
  at: { readonly seq: number; readonly elapsedUs: number },
): PullState {
  const { tailS } = state.rules;
  return {
    ...state,
    state: 'broken',
    break: at,
    breakRun: NO_RUN,
    returnRun: NO_RUN,
    closesAtUs: tailS === null ? null : at.elapsedUs + Math.round(tailS * 1e6),
  };
}

function largerPeak(peak: Peak | null, reading: SeenReading): Peak | null {
  if (Number.isNaN(reading.forceN)) return peak;
  return peak === null || reading.forceN > peak.forceN ? peakOf(reading) : peak;
}

const peakOf = ({ forceN, seq, elapsedUs }: SeenReading): Peak => ({ forceN, seq, elapsedUs });
