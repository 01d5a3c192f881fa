/** The peak that is told and kept: a garbled reading is none until a neighbour confirms it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LONE_PART, READINGS_TO_TELL_MIN } from '../../../core/pull/lone-peak.ts';
import { toldPeak } from '../../../core/pull/pull-state.ts';
import { play } from './played-pull.ts';

const told = (forces: readonly number[]): number | null => toldPeak(play(forces).state)?.forceN ?? null;
const rise = Array.from({ length: 300 }, (_, i) => 100 * i);

describe('the peak of a record', () => {
  it('is not a garbled reading among others, however far above them it lies', () => {
    for (const garbled of [9e9, 1e23, 80_000])
      expect(told([...rise, garbled, ...rise.map((f) => 29_900 - f / 10)])).toBe(29_900);
  });

  it('is the last reading neither, where that stands alone far above the one before', () => {
    expect(told([...rise, 9e9])).toBe(29_900);
  });

  it('is a reading that the one before or the one after confirms', () => {
    expect(told([...rise, 70_000, 0, 0])).toBe(70_000);
    expect(told([...rise, 0, 90_000, 89_000, 0])).toBe(90_000);
  });

  it('counts a reading as confirmed from a neighbour above two fifths of it on', () => {
    const neighbour = LONE_PART * 50_000;
    expect(told([...rise, neighbour, 50_000, 0])).toBe(29_900);
    expect(told([...rise, neighbour + 1, 50_000, 0])).toBe(50_000);
  });

  it('is confirmed by no other garbled reading of another size', () => {
    expect(told([...rise, 1e23, 1e9, 29_950, 0])).toBe(29_950);
    expect(told([...rise, 1e9, 1e23, 29_950, 0])).toBe(29_950);
  });

  it('takes the next reading that has a force as the neighbour', () => {
    expect(told([...rise, 90_000, Number.NaN, Number.NaN, 80_000, 0])).toBe(90_000);
    expect(told([...rise, 90_000, Number.NaN, 0, 0])).toBe(29_900);
  });

  it('is the largest reading where the record has too few to tell', () => {
    const few = Array.from({ length: READINGS_TO_TELL_MIN - 1 }, (_, i) => (i === 3 ? 31_200 : 0));
    expect(told(few)).toBe(31_200);
    expect(told([...few, 0])).toBe(0);
  });

  it('is not held back by a brittle break, from the full load to none within one reading', () => {
    expect(told([...rise, 0, 0, 0])).toBe(29_900);
  });

  it('is always a reading of the record, and the largest of any rise without gaps', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.double({ min: -1e5, max: 1e6, noNaN: true }), fc.constant(Number.NaN)), {
          maxLength: 40,
        }),
        (forces) => {
          const peak = told([...rise, ...forces]);
          expect([...rise, ...forces]).toContain(peak);
          expect(peak).toBeGreaterThanOrEqual(29_900);
        },
      ),
      { numRuns: 200 },
    );
  });
});
