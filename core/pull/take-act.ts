/** What a person does to an open record, and what time does. Every step that doesn't fit is a typed refusal. */
import type { SessionState } from '../contract/session.ts';
import { NO_RUN } from './detectors.ts';
import type { MarkKind } from '../contract/record.ts';
import { NO_PEAK } from './lone-peak.ts';
import type { Moment, NewMark, PullState } from './pull-state.ts';
import { NO_END, endWords, endsAfterStop } from './record-end.ts';
import { broken } from './take-reading.ts';

export const PULL_ACTS = ['start', 'mark-break', 'undo-break', 'stop', 'continue', 'close'] as const;
export type PullAct = (typeof PULL_ACTS)[number];

export interface Refusal {
  readonly code: 'step-not-now';
  readonly sentence: string;
}

export type ActOutcome =
  | { readonly ok: true; readonly state: PullState; readonly marks: readonly NewMark[] }
  | { readonly ok: false; readonly refusal: Refusal };

/** States in which each act is possible. */
export const ACT_STATES: Readonly<Record<PullAct, readonly SessionState[]>> = {
  start: ['ready'],
  'mark-break': ['pulling', 'stopped'],
  'undo-break': ['broken'],
  stop: ['pulling', 'broken'],
  continue: ['stopped'],
  close: ['ready', 'pulling', 'broken', 'stopped'],
};

const WORDS: Readonly<Record<PullAct, string>> = {
  start: 'started by hand',
  'mark-break': 'break marked by hand',
  'undo-break': 'break taken back by hand',
  stop: 'end of the pull marked by hand; still recorded',
  continue: 'end taken back by hand',
  close: 'record closed by hand',
};

const MARK_OF_ACT: Readonly<Record<PullAct, MarkKind>> = {
  start: 'trigger',
  'mark-break': 'break',
  'undo-break': 'undo-break',
  stop: 'stop',
  continue: 'continue',
  close: 'record-ends',
};

/** An act of a person at `elapsedUs`. The mark stands on the next reading to come; `words` say why where it isn't plain. */
export function takeAct(
  before: PullState,
  act: PullAct,
  elapsedUs: number,
  words: string = WORDS[act],
): ActOutcome {
  if (!ACT_STATES[act].includes(before.state)) return { ok: false, refusal: refusalFor(act, before.state) };
  const at: Moment = { seq: before.nextSeq, elapsedUs };
  const mark: NewMark = { kind: MARK_OF_ACT[act], ...at, cause: 'person', words };
  return { ok: true, state: stateAfter(before, act, at), marks: [mark] };
}

function stateAfter(before: PullState, act: PullAct, at: Moment): PullState {
  switch (act) {
    case 'start':
      return {
        ...before,
        state: 'pulling',
        trigger: at,
        triggerRun: NO_RUN,
        peakSinceTrigger: { ...NO_PEAK, beforeN: before.peak.beforeN },
      };
    case 'mark-break':
      return broken(before, at);
    case 'undo-break':
      return takenBack(before);
    case 'stop':
      return { ...before, state: 'stopped', ...endsAfterStop(before, at.elapsedUs) };
    case 'continue':
      // What broke while it was stopped is still to be marked; a break that was marked before has been taken back.
      return before.break === null ? { ...before, state: 'pulling', ...NO_END } : takenBack(before);
    case 'close':
      return { ...before, state: 'ended', ...NO_END };
  }
}

/** Pulling goes on in spite of a marked break: the same drop must not mark it again. */
function takenBack(before: PullState): PullState {
  return {
    ...before,
    state: 'pulling',
    break: null,
    breakRun: NO_RUN,
    returnRun: NO_RUN,
    breakArmed: false,
    ...NO_END,
  };
}

/** Time passes: the record closes by itself when its tail, or the time for which it is held open, is over. */
export function takeTime(before: PullState, elapsedUs: number): ActOutcome & { readonly ok: true } {
  if (before.closesAtUs === null || elapsedUs < before.closesAtUs)
    return { ok: true, state: before, marks: [] };
  const mark: NewMark = {
    kind: 'record-ends',
    seq: before.nextSeq,
    elapsedUs,
    cause: 'rule',
    words: endWords(before),
  };
  return { ok: true, state: { ...before, state: 'ended', ...NO_END }, marks: [mark] };
}

const NEEDS: Readonly<Record<PullAct, string>> = {
  start: 'A pull can be started by hand only when it has been made ready and has not started yet',
  'mark-break': 'A break can be marked only while a pull is running or stopped',
  'undo-break': 'There is no break to take back',
  stop: 'There is no running pull to stop',
  continue: 'Only a stopped pull can be continued',
  close: 'There is no open record to close',
};

/** The sentence for a step that doesn't fit; nothing has been changed by it. */
export function refusalFor(act: PullAct, state: SessionState): Refusal {
  return {
    code: 'step-not-now',
    sentence: `${NEEDS[act]}; now the session is "${state}" and nothing was changed.`,
  };
}
