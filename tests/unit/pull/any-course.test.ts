/** Whatever comes in whatever order: the machine never loses count, never throws, and can be recovered. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Mark } from '../../../core/contract/record.ts';
import type { SeenReading } from '../../../core/pull/detectors.ts';
import { effectiveMarks } from '../../../core/pull/effective-marks.ts';
import { type PullState, newPull } from '../../../core/pull/pull-state.ts';
import { recoverState } from '../../../core/pull/recover-state.ts';
import { ACT_STATES, PULL_ACTS, takeAct, takeTime } from '../../../core/pull/take-act.ts';
import { takeReading } from '../../../core/pull/take-reading.ts';

const force = fc.oneof(
  fc.constantFrom(0, 50, 199, 200, 201, 600, 5000, Number.NaN, -300),
  fc.double({ min: -1e4, max: 1e5, noNaN: true }),
);
const event = fc.oneof(
  { weight: 8, arbitrary: force.map((forceN) => ({ kind: 'reading' as const, forceN })) },
  { weight: 2, arbitrary: fc.constantFrom(...PULL_ACTS).map((act) => ({ kind: 'act' as const, act })) },
  {
    weight: 1,
    arbitrary: fc.integer({ min: 0, max: 2_000_000 }).map((us) => ({ kind: 'time' as const, us })),
  },
);
const rules = fc.record({
  trigger: fc.oneof(
    fc.record({
      kind: fc.constant('force' as const),
      thresholdN: fc.constant(200),
      readings: fc.integer({ min: 1, max: 4 }),
    }),
    fc.constant({ kind: 'by-hand' as const }),
  ),
  breakRule: fc.oneof(
    fc.record({
      kind: fc.constant('force-drop' as const),
      fractionOfPeak: fc.constantFrom(0.05, 0.2, 0.9),
      readings: fc.integer({ min: 1, max: 3 }),
      peakTimesThreshold: fc.constant(3),
      peakMinN: fc.constant(100),
    }),
    fc.constant({ kind: 'by-hand' as const }),
  ),
  tailS: fc.constantFrom(null, 0.5, 3),
  heldOpenS: fc.constantFrom(null, 1, 5),
});

it('counts every reading while the record is open, refuses only what does not fit, and is recovered as it was', () => {
  fc.assert(
    fc.property(rules, fc.array(event, { maxLength: 120 }), (its, course) => {
      let state: PullState = newPull(its);
      let nowUs = 0;
      const marks: Mark[] = [];
      const readings: SeenReading[] = [];
      for (const step of course) {
        const before = state;
        if (step.kind === 'act') {
          const outcome = takeAct(state, step.act, nowUs);
          expect(outcome.ok).toBe(ACT_STATES[step.act].includes(before.state));
          if (!outcome.ok) continue;
          state = outcome.state;
          marks.push(...outcome.marks);
        } else if (step.kind === 'time') {
          nowUs += step.us;
          const outcome = takeTime(state, nowUs);
          state = outcome.state;
          marks.push(...outcome.marks);
        } else if (state.state !== 'ended') {
          nowUs += 1000;
          const reading = { seq: state.nextSeq, elapsedUs: nowUs, forceN: step.forceN };
          readings.push(reading);
          const taken = takeReading(state, reading);
          state = taken.state;
          marks.push(...taken.marks);
        }
        if (before.state === 'ended') expect(state).toEqual(before);
      }
      expect(state.nextSeq).toBe(readings.length);
      const { triggerSeq, breakSeq } = effectiveMarks(marks);
      expect([triggerSeq, breakSeq]).toEqual([state.trigger?.seq ?? null, state.break?.seq ?? null]);
      // A recorder that dies here finds marks and readings, and is in the same state again.
      const closedByRule = marks.some((m) => m.kind === 'record-ends' && m.cause === 'rule');
      if (!closedByRule) expect(recoverState(its, marks, readings)).toEqual(state);
    }),
    { numRuns: 400 },
  );
});
