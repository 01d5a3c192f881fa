/** Options of an evaluation as entries of the form, and back. */
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { describe, expect, it } from 'vitest';
import type { EvaluationOptions } from '../../../core/results/evaluation.ts';
import {
  type EvaluationDraft,
  type TypedEntry,
  draftOf,
  optionsOf,
  typedWindow,
  withWindow,
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

it('a file that is not wholly said yet is not evaluated', () => {
  expect(faults({ ...draftOf({}), importPlan: 'open' })).toEqual({ whole: words.planOpen });
});

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
          readoutClass: '0.5',
          readoutUncertaintyPercent: 0.4,
          readoutResolutionN: 10,
          extensometerClass: '2',
        },
        convertElongation: { gaugeLengthMm: 203.2, materialKind: 'austenitic' },
        hardeningRangePercent: { from: 4, to: 15 },
        requiredElongationPercent: 18,
      },
    ],
    [
      'by the loop',
      {
        slopeFrom: 'loop',
        section: 'least',
        rounding: 'e8-3',
        finalSection: 'plain',
        sectionForm: 'simplified',
        judgedBy: { pack: builtInPacks()[0]?.file ?? expect.fail() },
      },
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

  it('takes the last reading before the break by its number from one, and a strain range with either sign', () => {
    expect(options(typed({ lastReading: ' 2501 ' }))).toEqual({ fractureIndex: 2_500 });
    expect(options(typed({ hardeningFrom: '4,5 %', hardeningTo: '15' }))).toEqual({
      hardeningRangePercent: { from: 4.5, to: 15 },
    });
  });

  it('tells what is missing or the wrong way round beside its entry', () => {
    expect(faults(typed({ slopeLower: '50' }, { slope: 'window' }))).toEqual({
      slopeUpper: words.windowHalf,
    });
    expect(faults(typed({ slopeLower: '50', slopeUpper: '20 MPa' }, { slope: 'window' })).slopeUpper).toBe(
      words.windowOrder,
    );
    expect(faults(typed({}, { materialKind: 'carbon' })).convertElongation).toBe(words.lengthNeeded);
    expect(faults(typed({ lastReading: '0' })).lastReading).toBe(words.readingWrong('0'));
    expect(faults(typed({ lastReading: '12.5' })).lastReading).toBe(words.readingWrong('12.5'));
    expect(faults(typed({ hardeningFrom: '4' })).hardeningTo).toBe(words.rangeHalf);
    expect(faults(typed({ hardeningFrom: '9', hardeningTo: '4 %' })).hardeningTo).toBe(words.rangeOrder);
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

describe('a window dragged on the picture', () => {
  it('stands in the entries, in the unit that is shown, and is what is evaluated by', () => {
    const draft = withWindow(draftOf({}), { lowerMpa: 61.24, upperMpa: 240.06 }, 'SI');
    expect([draft.typed.slopeLower, draft.typed.slopeUpper]).toEqual(['61.2 MPa', '240.1 MPa']);
    expect(options(draft)).toEqual({ slopeWindow: { lowerMpa: 61.2, upperMpa: 240.1 } });
    // 1 ksi = 6.894757 MPa (NIST SP 811, B.8).
    const us = withWindow(draftOf({}), { lowerMpa: 68.94757, upperMpa: 275.79 }, 'US');
    expect([us.typed.slopeLower, us.typed.slopeUpper]).toEqual(['10.00 ksi', '40.00 ksi']);
  });

  it('is none while the entries say none that could be fitted', () => {
    expect(
      typedWindow(typed({ slopeLower: '200', slopeUpper: '100' }, { slope: 'window' }), 'SI'),
    ).toBeNull();
    expect(typedWindow(typed({ slopeLower: '', slopeUpper: '100' }, { slope: 'window' }), 'SI')).toBeNull();
    expect(typedWindow(draftOf({}), 'SI')).toBeNull();
    expect(typedWindow(typed({ slopeLower: '50', slopeUpper: '100' }, { slope: 'window' }), 'SI')).toEqual({
      lowerMpa: 50,
      upperMpa: 100,
    });
  });
});
