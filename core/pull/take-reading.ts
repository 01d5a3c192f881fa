/** One reading more: peaks, the trigger, the break, the closing of the record after its tail. */
import { type SeenReading, NO_RUN, breakHolds, extendRun, triggerHolds } from './detectors.ts';
import { LONE_PART, type WatchedPeak, largerPeak, peakOf, watchedPeak } from './lone-peak.ts';
import type { NewMark, PullState } from './pull-state.ts';
import { endsAfterBreak, endsUnderLoad, loadIsBack } from './record-end.ts';
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
    largest: Number.isNaN(reading.forceN) ? before.largest : largerPeak(before.largest, peakOf(reading)),
    peak: watchedPeak(before.peak, reading, LONE_PART),
    ...(before.trigger === null
      ? {}
      : { peakSinceTrigger: peakForBreak(before.peakSinceTrigger, reading, before) }),
  };
  switch (state.state) {
    case 'ready':
      return watchForTrigger(state, reading);
    case 'pulling':
      return watchForBreak(state, reading);
    case 'broken':
      return watchForReturn(state, reading);
    case 'stopped':
      // Nothing is marked while a person has stopped it, but what breaks then is found when it goes on.
      return { state: lookedAtBreak(state, reading), marks: [] };
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
  // The run's readings are all at or above the threshold, and the record's peak lies among or before them.
  const begun = { sure: peakOf(run.first), doubtful: null, beforeN: run.first.forceN };
  return {
    state: {
      ...state,
      state: 'pulling',
      triggerRun: NO_RUN,
      trigger: at,
      peakSinceTrigger: peakForBreak(begun, reading, state),
    },
    marks: [{ kind: 'trigger', ...at, cause: 'rule', words: triggerWords(rule) }],
  };
}

function watchForBreak(before: PullState, reading: SeenReading): Taken {
  const { breakRule: rule } = before.rules;
  const state = lookedAtBreak(before, reading);
  const { first, count } = state.breakRun;
  if (rule.kind !== 'force-drop' || count < rule.readings || first === null) return { state, marks: [] };
  const at = { seq: first.seq, elapsedUs: first.elapsedUs };
  const words = breakWords(rule, state.peakSinceTrigger.sure?.forceN ?? 0);
  return { state: broken(state, at), marks: [{ kind: 'break', ...at, cause: 'rule', words }] };
}

/** The break's rule has seen this reading; whether it is fulfilled is for the caller. */
function lookedAtBreak(state: PullState, reading: SeenReading): PullState {
  const { breakRule, trigger } = state.rules;
  const holds = breakHolds(breakRule, trigger, reading.forceN, state.peakSinceTrigger.sure?.forceN ?? 0);
  const breakArmed = state.breakArmed || (!Number.isNaN(reading.forceN) && !holds);
  return { ...state, breakArmed, breakRun: breakArmed ? extendRun(state.breakRun, reading, holds) : NO_RUN };
}

/** A force that comes back after a break puts off the end of the record; when it has gone again the tail begins anew. */
function watchForReturn(before: PullState, reading: SeenReading): Taken {
  const { breakRule: rule } = before.rules;
  if (rule.kind !== 'force-drop' || Number.isNaN(reading.forceN)) return { state: before, marks: [] };
  const peakN = before.peakSinceTrigger.sure?.forceN ?? 0;
  const isOver = reading.forceN > rule.fractionOfPeak * peakN && peakN > 0;
  const state = { ...before, returnRun: extendRun(before.returnRun, reading, isOver) };
  if (loadIsBack(state))
    return { state: { ...state, ...endsUnderLoad(state, reading.elapsedUs) }, marks: [] };
  if (loadIsBack(before))
    return { state: { ...state, ...endsAfterBreak(state, reading.elapsedUs) }, marks: [] };
  return { state, marks: [] };
}

/** The state after a break at `at`; the tail counts from there. */
export function broken(
  state: PullState,
  at: { readonly seq: number; readonly elapsedUs: number },
): PullState {
  return {
    ...state,
    state: 'broken',
    break: at,
    breakRun: NO_RUN,
    returnRun: NO_RUN,
    ...endsAfterBreak(state, at.elapsedUs),
  };
}

/**
 * The peak that the break's rule counts from. Against a garbled reading far above the rest every load after it would
 * look like a break: where the readings beside it would count as broken against it, it is not believed either.
 */
function peakForBreak(
  watched: WatchedPeak,
  reading: SeenReading,
  { rules: { breakRule } }: Pick<PullState, 'rules'>,
): WatchedPeak {
  const fraction = breakRule.kind === 'force-drop' ? breakRule.fractionOfPeak : 0;
  return watchedPeak(watched, reading, Math.max(LONE_PART, fraction));
}
