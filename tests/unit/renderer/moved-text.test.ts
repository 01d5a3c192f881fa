import { describe, expect, it } from 'vitest';
import { movedText } from '../../../renderer/stations/readout/moved-text.ts';

/** 1 lbf = 4.4482216152605 N and 1 in = 25.4 mm, both exact (NIST SP 811). */
const N_PER_LBF = 4.4482216152605;

describe('how far a number has gone since it was watched', () => {
  it('is told in the unit of the display, not in the one that the program reckons in', () => {
    const live = { shownText: '2 lbf', coreUnit: 'N', resolution: N_PER_LBF };
    expect(movedText(4 * N_PER_LBF, live, 'en')).toBe('4 lbf');
    const extension = { shownText: '0.0160 in', coreUnit: 'mm', resolution: 25.4e-4 };
    expect(movedText(0.4064, extension, 'en')).toBe('0.0160 in');
  });

  it('has as many places as the display, and a comma where one was chosen', () => {
    expect(movedText(1_250, { shownText: '1.25 kN', coreUnit: 'N', resolution: 10 }, 'es')).toBe('1,25 kN');
  });

  it('has no unit where the display names none', () => {
    const bare = { shownText: '17 1', coreUnit: '1', resolution: 1 };
    expect(movedText(5, bare, 'en')).toBe('5');
  });
});
