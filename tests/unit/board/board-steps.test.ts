/** The board writes what a person would write by hand, in either unit system, and reveals it beat by beat. */
import { describe, expect, it } from 'vitest';
import { boardBeats, boardSteps, sameBeat } from '../../../core/board/board-steps.ts';
import { evaluateTyped } from '../../../core/results/evaluate-typed.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

/** 0.5 in × 0.25 in is 1/8 in²; 8 kip over it is 64 000 psi; 2.5 in from 2 in is 25 %: worked by hand. */
const read = readSpecimen({
  id: 'Q-1',
  geometry: { kind: 'flat', width: '0.500 in', thickness: '0.250 in' },
  gaugeLength: '2 in',
  finalGaugeLength: '2.5 in',
});
if (!read.ok) throw new Error('the specimen of this test can’t be read');
const { results } = evaluateTyped({ load: '8 kip' }, read.specimen);

describe('the board', () => {
  it('goes from the section to the strength to the elongation', () => {
    expect(boardSteps(results, 'US').map((step) => step.symbol)).toEqual(['S0', 'Fm', 'Rm', 'L0', 'A']);
  });

  it('puts the numbers in with their units, US customary', () => {
    const strength = boardSteps(results, 'US').find((step) => step.symbol === 'Rm');
    expect(strength?.formula).toBe('Rm = Fm / S0');
    expect(strength?.given).toEqual(['Fm = 8000 lbf', 'S0 = 0.125 in²']);
    expect(strength?.numbers).toMatch(/^Rm = 8000 lbf \/ 0\.125 in²$/);
    expect(strength?.unrounded).toBe('64\u202f000 psi');
    expect(strength?.answer).toBe('64\u202f000 psi');
  });

  it('and SI: 8 kip is 35 585.8 N, 1/8 in² is 80.645 mm²', () => {
    const strength = boardSteps(results, 'SI').find((step) => step.symbol === 'Rm');
    expect(strength?.given).toEqual(['Fm = 35\u202f585.8 N', 'S0 = 80.645 mm²']);
    expect(strength?.answer).toBe('441 MPa');
    expect(strength?.numbers).not.toMatch(/psi|lbf|in²/);
  });

  it('keeps the answer back for one press where it is hidden, and ends with the curve', () => {
    expect(boardBeats(1, { hidden: false, curve: true }).map((beat) => beat.kind)).toEqual([
      'formula',
      'answer',
      'curve',
    ]);
    expect(boardBeats(1, { hidden: true, curve: false }).map((beat) => beat.kind)).toEqual([
      'formula',
      'question',
      'answer',
    ]);
  });

  it('stays where it is when answers are hidden or shown', () => {
    const open = boardBeats(3, { hidden: false, curve: true });
    const hidden = boardBeats(3, { hidden: true, curve: true });
    for (const beat of open) expect(hidden[sameBeat(beat, hidden)]).toEqual(beat);
    // A question shows no answer by being looked at in the other list.
    expect(open[sameBeat({ kind: 'question', step: 1 }, open)]).toEqual({ kind: 'formula', step: 1 });
  });
});
