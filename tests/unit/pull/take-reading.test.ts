/** The state of a pull: where trigger and break are marked, and that no step ever cuts data off. */
import { describe, expect, it } from 'vitest';
import { newPull, toldPeak } from '../../../core/pull/pull-state.ts';
import { takeAct, takeTime } from '../../../core/pull/take-act.ts';
import { recoverState } from '../../../core/pull/recover-state.ts';
import { withZeroTaken } from '../../../core/pull/zero-taken.ts';
import { takeReading } from '../../../core/pull/take-reading.ts';
import { PULL, RULES, STEP_US, act, play } from './played-pull.ts';

describe('the trigger', () => {
  it('stands on the first of the readings that satisfy it', () => {
    const { state, marks } = play(PULL);
    expect(state.state).toBe('pulling');
    expect(marks).toEqual([
      {
        kind: 'trigger',
        seq: 2,
        elapsedUs: 3 * STEP_US,
        cause: 'rule',
        words: 'force at or above 200 N for 3 readings',
      },
    ]);
  });

  it('can stand on the very first reading of the record (N8)', () => {
    expect(play([250, 260, 270]).marks.map((m) => m.seq)).toEqual([0]);
  });

  it('counts the threshold itself as reached', () => {
    expect(play([200, 200, 200]).state.state).toBe('pulling');
    expect(play([199.999, 199.999, 199.999, 199.999]).state.state).toBe('ready');
  });

  it('starts over when a reading falls below the threshold', () => {
    expect(play([300, 300, 100, 300, 300]).state.state).toBe('ready');
    expect(play([300, 300, 100, 300, 300, 300]).marks.map((m) => m.seq)).toEqual([3]);
  });

  it('is not disturbed by a reading without a force', () => {
    expect(play([300, 300, Number.NaN, 300]).marks.map((m) => m.seq)).toEqual([0]);
  });

  it('does not start a pull that is to be started by hand', () => {
    const byHand = newPull({ ...RULES, trigger: { kind: 'by-hand' } });
    const { state, marks } = play([5000, 6000, 7000], byHand);
    expect([state.state, marks]).toEqual(['ready', []]);
    expect(act(state, 'start').state).toBe('pulling');
  });
});

describe('one garbled reading far above the rest', () => {
  const rise = (from: number, to: number): number[] =>
    Array.from({ length: (to - from) / 100 }, (_, i) => from + 100 * i);

  it('marks no break in the middle of the pull; the real break is found against the real peak', () => {
    // 9 900 N with a digit too many.
    const forces = [...rise(0, 10_000), 99_000, ...rise(10_000, 20_000), 19_900, 5, 5];
    const { marks } = play(forces);
    expect(marks.map(({ kind, seq }) => [kind, seq])).toEqual([
      ['trigger', 2],
      ['break', forces.length - 2],
    ]);
    expect(marks[1]?.words).toContain('peak of 19900 N');
  });

  it('neither as the reading on which the pull starts, nor twice in different sizes', () => {
    const forces = [...PULL.slice(0, 4), 1e9, ...rise(500, 9_000), 1e23, 1e9, ...rise(9_000, 9_500), 5, 5];
    expect(play(forces).marks.map(({ kind, seq }) => [kind, seq])).toEqual([
      ['trigger', 2],
      ['break', forces.length - 2],
    ]);
  });

  it('while a load that really jumps counts from its second reading on', () => {
    const forces = [...PULL.slice(0, 5), 50_000, 51_000, 5_000, 5_000];
    const { marks } = play(forces);
    expect(marks.map(({ kind, seq }) => [kind, seq])).toEqual([
      ['trigger', 2],
      ['break', 7],
    ]);
    expect(marks[1]?.words).toContain('peak of 51000 N');
  });
});

describe('the break', () => {
  it('stands on the first reading after the drop and says the rule with its figures', () => {
    const { state, marks } = play([...PULL, 390, 100]);
    expect(state.state).toBe('broken');
    expect(marks.at(-1)).toEqual({
      kind: 'break',
      seq: 7,
      elapsedUs: 8 * STEP_US,
      cause: 'rule',
      words: 'force at or below 20 % of the peak of 2000 N for 2 readings',
    });
  });

  it('needs a peak of a multiple of the threshold, so that slack taken up and lost is no break', () => {
    expect(play([300, 400, 500, 50, 40, 30]).state.state).toBe('pulling');
    expect(play([300, 400, 600, 50, 40]).state.state).toBe('broken');
  });

  it('looks at the peak since the trigger, not at a shock before it', () => {
    const { state } = play([9000, 8000, 0, 0, 300, 400, 700, 650, 640]);
    expect([state.state, toldPeak(state)?.forceN, state.peakSinceTrigger.sure?.forceN]).toEqual([
      'pulling',
      9000,
      700,
    ]);
  });

  it('is not made by one reading alone', () => {
    expect(play([...PULL, 0, 2100, 0, 2200]).state.state).toBe('pulling');
  });

  it('is followed by a tail that is still recorded, then the record closes by itself', () => {
    const { state } = play([...PULL, 0, 0, 0, 0]);
    const breakUs = state.break?.elapsedUs ?? 0;
    expect(state.nextSeq).toBe(11);
    expect(takeTime(state, breakUs + 2_999_999).state.state).toBe('broken');
    const ended = takeTime(state, breakUs + 3_000_000);
    expect([ended.state.state, ended.marks[0]?.words]).toEqual([
      'ended',
      'closed by itself 3 s after the break',
    ]);
  });

  it('can be undone, and the same drop is not marked again until the force has come back (N8)', () => {
    const broken = play([...PULL, 0, 0]).state;
    const undone = act(broken, 'undo-break');
    expect(undone.state).toBe('pulling');
    const stillDown = play([0, 0, 0, 0], undone).state;
    expect(stillDown.state).toBe('pulling');
    expect(takeTime(stillDown, 1e12).state.state).toBe('pulling');
    expect(play([1500, 1600, 0, 0], stillDown).state.state).toBe('broken');
  });

  it('does not close the record by itself when the force comes back during the tail', () => {
    const back = play([...PULL, 0, 0, 1500, 1600, 1700]).state;
    expect(back.state).toBe('broken');
    expect(takeTime(back, 1e12).state.state).toBe('broken');
    expect(play([...PULL, 0, 0, 1500, 0]).state.closesAtUs).not.toBeNull();
  });

  it('closes the record a tail after the load that had come back has gone again', () => {
    const { state } = play([...PULL, 0, 0, 1500, 1600, 1700, 0]);
    const goneUs = state.lastElapsedUs;
    expect(takeTime(state, goneUs + 2_999_999).state.state).toBe('broken');
    expect(takeTime(state, goneUs + 3_000_000).marks[0]?.words).toBe(
      'closed by itself 3 s after the last load behind the break',
    );
  });
});

describe('a pull stopped by hand', () => {
  it('is still recorded, and can be continued', () => {
    const stopped = act(play(PULL).state, 'stop');
    const later = play([2100, 0, 0, 0], stopped).state;
    expect([later.state, later.nextSeq]).toEqual(['stopped', 11]);
    const continued = act(later, 'continue');
    expect(continued.state).toBe('pulling');
    expect(play([2300, 0, 0], continued).state.state).toBe('broken');
  });

  it('that broke while it was stopped has its break marked as soon as it goes on, where the load fell', () => {
    const broke = play([2100, 0, 0, 0], act(play(PULL).state, 'stop'));
    // Nothing is marked against the person who stopped it.
    expect([broke.state.state, broke.marks]).toEqual(['stopped', []]);
    const { state, marks } = play([0], act(broke.state, 'continue'));
    expect(state.state).toBe('broken');
    expect(marks).toEqual([
      {
        kind: 'break',
        seq: 8,
        elapsedUs: 9 * STEP_US,
        cause: 'rule',
        words: 'force at or below 20 % of the peak of 2100 N for 2 readings',
      },
    ]);
    // Unloaded to set the grips anew: taken back, the drop counts no more, the next one does.
    const undone = act(state, 'undo-break');
    expect(play([0, 0, 0], undone).state.state).toBe('pulling');
    expect(play([1500, 2200, 0, 0], undone).marks.map(({ kind, seq }) => [kind, seq])).toEqual([
      ['break', 14],
    ]);
  });

  it('that is unloaded and loaded again while stopped goes on without a break', () => {
    const reset = play([0, 0, 0, 900, 1000], act(play(PULL).state, 'stop')).state;
    const { state, marks } = play([1100, 1200], act(reset, 'continue'));
    expect([state.state, marks]).toEqual(['pulling', []]);
    expect(play([0, 0], state).state.state).toBe('broken');
  });

  it('after a marked break takes that break back when it is continued', () => {
    const stopped = act(play([...PULL, 0, 0]).state, 'stop');
    const continued = act(play([0, 0], stopped).state, 'continue');
    expect([continued.state, continued.break]).toEqual(['pulling', null]);
    expect(play([0, 0, 0], continued).state.state).toBe('pulling');
    expect(play([1500, 0, 0], continued).state.state).toBe('broken');
  });
});

describe('steps that do not fit', () => {
  it('are refused with a sentence and change nothing', () => {
    const ready = newPull(RULES);
    const outcome = takeAct(ready, 'undo-break', 0);
    expect(outcome).toEqual({
      ok: false,
      refusal: {
        code: 'step-not-now',
        sentence: 'There is no break to take back; now the session is "ready" and nothing was changed.',
      },
    });
  });

  it('are bugs when they come from the program: a reading out of turn, a reading after the end', () => {
    expect(() => takeReading(newPull(RULES), { seq: 1, elapsedUs: 0, forceN: 0 })).toThrow(RangeError);
    const ended = act(newPull(RULES), 'close');
    expect(() => takeReading(ended, { seq: 0, elapsedUs: 0, forceN: 0 })).toThrow(RangeError);
  });
});

describe('a zero taken before the load comes on', () => {
  it.each([
    ['of heavier grips', [150, 150, 250, 250], [0, 0, 90, 120]],
    ['that goes down, since lighter grips hang there now', [-10, 0, 0], [0, 0, 90, 120]],
  ])('lets peak and trigger begin anew: %s', (_what, before, after) => {
    const { state } = play(before);
    const { state: zeroed, marks } = play(after, withZeroTaken(state));
    expect([marks, zeroed.peak.sure?.forceN, zeroed.largest?.forceN]).toEqual([[], 120, 120]);
  });

  it('is found again after a crash: what stood on the channel before it starts no pull', () => {
    const seen = [150, 150, 190, 190, 190, 0, 0, 90, 90].map((forceN, seq) => ({
      seq,
      elapsedUs: (seq + 1) * STEP_US,
      forceN,
    }));
    const state = recoverState(RULES, [], seen, [5]);
    expect([state.state, state.peak.sure?.forceN, state.largest?.forceN]).toEqual(['ready', 90, 90]);
  });
});
