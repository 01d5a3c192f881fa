/** A record that is held open after its break or stop: what can be taken back, and when it ends all the same. */
import { describe, expect, it } from 'vitest';
import { RECORD_AFTER_BREAK_MS_MAX } from '../../../core/limits.ts';
import { heldOpenS } from '../../../core/contract/rules.ts';
import { loadIsBack, waitsToBePutAway } from '../../../core/pull/record-end.ts';
import { newPull, toldPeak } from '../../../core/pull/pull-state.ts';
import { recoverState } from '../../../core/pull/recover-state.ts';
import { takeAct, takeTime } from '../../../core/pull/take-act.ts';
import { PULL, RULES, STEP_US, act, play } from './played-pull.ts';

const HELD = { ...RULES, heldOpenS: 600 };
const S = 1_000_000;
const broken = () => play([...PULL, 0, 0], newPull(HELD)).state;
/** The break stands on reading 7. */
const BREAK_US = 8 * STEP_US;

it('has a bound that a person can wait for', () => {
  expect(heldOpenS.safeParse(RECORD_AFTER_BREAK_MS_MAX / 1000).success).toBe(true);
  expect(heldOpenS.safeParse(RECORD_AFTER_BREAK_MS_MAX / 1000 + 1).success).toBe(false);
});

describe('after the break', () => {
  it('is still recorded when the tail is over, and the break can be taken back', () => {
    const late = takeTime(broken(), BREAK_US + 599 * S).state;
    expect([late.state, late.tailEndsAtUs]).toEqual(['broken', BREAK_US + 3 * S]);
    const undone = takeAct(late, 'undo-break', BREAK_US + 599 * S);
    expect(undone.ok && undone.state).toMatchObject({ state: 'pulling', break: null, closesAtUs: null });
  });

  it('ends at the bound where nobody has put it away', () => {
    const ended = takeTime(broken(), BREAK_US + 600 * S);
    expect([ended.state.state, ended.marks.map(({ kind, cause, words }) => [kind, cause, words])]).toEqual([
      'ended',
      [['record-ends', 'rule', 'closed by itself 600 s after the break']],
    ]);
  });

  it('holds open without a tail of its own too', () => {
    const { state } = play([...PULL, 0, 0], newPull({ ...HELD, tailS: null }));
    expect([state.tailEndsAtUs, state.closesAtUs]).toEqual([null, BREAK_US + 600 * S]);
  });

  it('does not end under load: the bound counts from the last reading that bears some', () => {
    const loaded = play([800, 900], broken()).state;
    expect([loadIsBack(loaded), loaded.tailEndsAtUs]).toEqual([true, null]);
    expect(loaded.closesAtUs).toBe(loaded.lastElapsedUs + 600 * S);
    // The readout falls silent: nothing else would end it.
    expect(takeTime(loaded, loaded.lastElapsedUs + 600 * S).marks[0]?.words).toBe(
      'closed by itself 600 s after the last load behind the break',
    );
    const gone = play([0], loaded).state;
    expect([loadIsBack(gone), gone.tailEndsAtUs]).toEqual([false, gone.lastElapsedUs + 3 * S]);
  });

  it('can be put away without asking, unlike a pull that runs or one that closes with its tail', () => {
    expect(waitsToBePutAway(broken())).toBe(true);
    expect(waitsToBePutAway(play(PULL, newPull(HELD)).state)).toBe(false);
    expect(waitsToBePutAway(play([...PULL, 0, 0]).state)).toBe(false);
    expect(waitsToBePutAway(act(broken(), 'close'))).toBe(false);
  });

  it('keeps both breaks of a specimen that had only slipped, and the larger peak behind the first', () => {
    const slipped = play([...PULL, 380, 370, 360], newPull(HELD));
    const undone = act(takeTime(slipped.state, BREAK_US + 60 * S).state, 'undo-break');
    const rest = play([500, 1500, 3000, 10, 10], undone);
    expect([...slipped.marks, ...rest.marks].map(({ kind, seq }) => [kind, seq])).toEqual([
      ['trigger', 2],
      ['break', 7],
      ['break', 13],
    ]);
    expect(toldPeak(rest.state)).toMatchObject({ forceN: 3000, seq: 12 });
  });
});

describe('after a stop', () => {
  it('ends at the bound, and not before', () => {
    const stopped = act(play(PULL, newPull(HELD)).state, 'stop');
    const stopUs = stopped.lastElapsedUs;
    expect([stopped.tailEndsAtUs, takeTime(stopped, stopUs + 599 * S).state.state]).toEqual([
      stopUs + 3 * S,
      'stopped',
    ]);
    expect(takeTime(stopped, stopUs + 600 * S).marks[0]?.words).toBe('closed by itself 600 s after the stop');
    expect(waitsToBePutAway(stopped)).toBe(true);
    expect(act(stopped, 'continue')).toMatchObject({ state: 'pulling', closesAtUs: null });
  });

  it('never ends by itself where it is not held open', () => {
    const stopped = act(play(PULL).state, 'stop');
    expect(takeTime(stopped, 1e15).state.state).toBe('stopped');
  });
});

it('is found by the next recorder as it was left, and ends at its bound all the same', () => {
  const forces = [...PULL, 0, 0, 0];
  const { state, marks } = play(forces, newPull(HELD));
  const readings = forces.map((forceN, seq) => ({ seq, elapsedUs: (seq + 1) * STEP_US, forceN }));
  const found = recoverState(HELD, marks, readings);
  expect(found).toEqual(state);
  expect(takeTime(found, BREAK_US + 600 * S).state.state).toBe('ended');
});
