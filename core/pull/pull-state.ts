/** What is known of the pull that is being recorded: plain data, replaced as a whole at every step. */
import type { MarkKind } from '../contract/record.ts';
import type { BreakRule, TriggerRule } from '../contract/rules.ts';
import type { SessionState } from '../contract/session.ts';
import { NO_RUN, type Run } from './detectors.ts';
import { NO_PEAK, type Peak, READINGS_TO_TELL_MIN, type WatchedPeak } from './lone-peak.ts';

export interface PullRules {
  readonly trigger: TriggerRule;
  readonly breakRule: BreakRule;
  /** Seconds of the tail after a break or a stop; null: until a person ends it. */
  readonly tailS: number | null;
  /** Seconds for which the record is held open after a break or a stop; null: it closes with its tail. */
  readonly heldOpenS: number | null;
}

export type RecordingState = Exclude<SessionState, 'closed' | 'listening'>;

export interface PullState {
  readonly state: RecordingState;
  readonly rules: PullRules;
  /** Number that the next reading gets. */
  readonly nextSeq: number;
  readonly lastElapsedUs: number;
  readonly triggerRun: Run;
  readonly breakRun: Run;
  /** In `broken`: readings whose force is above the break's limit again. */
  readonly returnRun: Run;
  /** False after an undone break, until the force has come back: the same drop is not marked twice. */
  readonly breakArmed: boolean;
  /** Largest force since the record began, garbled or not; what is told of it is `toldPeak`. */
  readonly largest: Peak | null;
  readonly peak: WatchedPeak;
  readonly peakSinceTrigger: WatchedPeak;
  readonly trigger: Moment | null;
  readonly break: Moment | null;
  /** Elapsed time at which the tail is over; null while there is none. */
  readonly tailEndsAtUs: number | null;
  /** Elapsed time at which the record closes by itself; null while none is planned. */
  readonly closesAtUs: number | null;
}

/** A place on the record. */
export interface Moment {
  readonly seq: number;
  readonly elapsedUs: number;
}

/** A mark that a step asks to be kept. */
export interface NewMark extends Moment {
  readonly kind: MarkKind;
  readonly cause: 'rule' | 'person' | 'program';
  readonly words: string;
}

/** A record that has just begun. */
export function newPull(rules: PullRules): PullState {
  return {
    state: 'ready',
    rules,
    nextSeq: 0,
    lastElapsedUs: 0,
    triggerRun: NO_RUN,
    breakRun: NO_RUN,
    returnRun: NO_RUN,
    breakArmed: true,
    largest: null,
    peak: NO_PEAK,
    peakSinceTrigger: NO_PEAK,
    trigger: null,
    break: null,
    tailEndsAtUs: null,
    closesAtUs: null,
  };
}

/** The peak of the record so far, as it is shown and as it is kept at the end; null where nothing counts as one. */
export function toldPeak({ nextSeq, largest, peak }: PullState): Peak | null {
  return nextSeq < READINGS_TO_TELL_MIN ? largest : peak.sure;
}
