/** A readout's own stamps are the time of a curve only where they can be relied on from the first line to the last. */
import { describe, expect, it } from 'vitest';
import { isClock } from '../../../core/pull/readout-clock.ts';

const relied = (...stamps: number[]): boolean => isClock(Float64Array.from(stamps));

describe("the readout's own clock", () => {
  it('is relied on while it goes forward, also when it shows one time twice, as coarse clocks do', () => {
    expect([relied(0, 0.25, 0.5, 1), relied(1, 1, 2, 2)]).toEqual([true, true]);
  });

  it('is not relied on when it goes backwards, lacks a stamp, stands still, or was never there', () => {
    const wrong = [
      relied(1, 3, 2),
      relied(1, Number.NaN, 3),
      relied(Number.NaN, 1, 2),
      relied(4, 4, 4),
      relied(),
    ];
    expect(wrong).toEqual([false, false, false, false, false]);
  });
});
