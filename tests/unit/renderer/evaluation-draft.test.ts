/** Options of an evaluation as entries of the form, and back. */
import { describe, expect, it } from 'vitest';
import type { EvaluationOptions } from '../../../core/results/evaluation.ts';
import {
  type EvaluationDraft,
  type TypedEntry,
  draftOf,
  optionsOf,
} from '../../../renderer/stations/evaluation/evaluation-draft.ts';
import { tableFromText } from '../../../renderer/stations/evaluation/table-file.ts';
import { en } from '../../../renderer/words/en.ts';

const words = en.evaluation;
const options = (draft: EvaluationDraft): EvaluationOptions => {
  const outcome = optionsOf(draft, 'SI', words);
  if (!outcome.ok) throw new Error([...outcome.faults].join('; '));
  return outcome.options;
};
const typed = (
  entries: Partial<Record<TypedEntry, string>>,
  chosen: Partial<EvaluationDraft['chosen']> = {},
) => {
  const empty = draftOf({});
  return { ...empty, typed: { ...empty.typed, ...entries }, chosen: { ...empty.chosen, ...chosen } };
};
const faults = (draft: EvaluationDraft) => {
  const outcome = optionsOf(draft, 'SI', words);
  return outcome.ok ? {} : Object.fromEntries(outcome.faults);
};

describe('a form that nobody touches', () => {
  it.each<readonly [string, EvaluationOptions]>([
    ['as recorded', {}],
    [
      'by hand',
      {
        slopeWindow: { lowerMpa: 68.9475729316836, upperMpa: 275.79 },
        offsetsPercent: [0.1, 1],
        fractureIndex: 7,
      },
    ],
    [
      'corrected',
      {
        strainFrom: 'travel',
        corrections: {
          toe: false,
          forceZeroN: -44.4822161526,
          travelZeroMm: 0.1,
          frameCompliance: [
            { forceN: 0, travelMm: 0 },
            { forceN: 1e4, travelMm: 0.2 },
          ],
        },
        measuring: {
          forceClass: '0.5',
          forceUncertaintyPercent: 0.4,
          forceResolutionN: 10,
          extensometerClass: '2',
        },
        elongationOn: { gaugeLengthMm: 203.2, rule: 'iso-2566-2' },
        hardeningRangePercent: { from: 4, to: 15 },
        requiredElongationPercent: 18,
      },
    ],
    [
      'by the loop',
      { slopeFrom: 'loop', section: 'least', rounding: 'e8-3', finalSection: 'plain', arcForm: 'series' },
    ],
  ])('says the same to the last digit: %s', (_name, given) => {
    expect(options(draftOf(given))).toEqual(given);
  });
});

describe('what is typed', () => {
  it('is read with its unit; lengths and stresses without one are in the units shown, forces never', () => {
    expect(options(typed({ forceZero: '-10 lbf', extensionZero: '0.02' })).corrections).toEqual({
      forceZeroN: expect.closeTo(-44.4822161526, 9) as number,
      extensionZeroMm: 0.02,
    });
    expect(faults(typed({ forceZero: '12' })).forceZero).toMatch(/has no unit/);
  });

  it('lists percentages apart by comma, semicolon or blank, with either decimal sign', () => {
    for (const text of ['0.1,1.0', '0.1 %; 1 %', '0,1; 1', '0.1 1'])
      expect(options(typed({ offsets: text })).offsetsPercent, text).toEqual([0.1, 1]);
    expect(faults(typed({ offsets: '0.2; -1' })).offsets).toMatch(/"-1" is no percentage/);
  });

  it('tells what is missing or the wrong way round beside its entry', () => {
    expect(faults(typed({ slopeLower: '50' }, { slope: 'window' }))).toEqual({
      slopeUpper: words.windowHalf,
    });
    expect(faults(typed({ slopeLower: '50', slopeUpper: '20 MPa' }, { slope: 'window' })).slopeUpper).toBe(
      words.windowOrder,
    );
    expect(faults(typed({}, { conversion: 'iso-2566-1' })).convertTo).toBe(words.lengthNeeded);
    expect(faults(typed({ travelZero: '1 mm' })).whole).toMatch(/would change nothing/);
  });
});

describe('a table from a file', () => {
  it('is taken with the hash of its text, for the channel that it is for', async () => {
    const file = { name: 'cell.csv', text: 'shown_kN,actual_kN\n0,0\n10,10.2\n' };
    expect(await tableFromText('forceTable', file, words.wrongQuantity)).toEqual({
      ok: true,
      table: {
        forceTable: [
          { shown: 0, actual: 0 },
          { shown: 10_000, actual: 10_200 },
        ],
      },
      source: {
        what: 'calibration table of the force',
        name: 'cell.csv',
        sha256: expect.stringMatching(/^[0-9a-f]{64}$/) as string,
      },
    });
    expect(await tableFromText('extensionTable', file, words.wrongQuantity)).toEqual({
      ok: false,
      sentence: words.wrongQuantity('cell.csv'),
    });
    expect(await tableFromText('frameCompliance', file, words.wrongQuantity)).toMatchObject({ ok: false });
  });
});
