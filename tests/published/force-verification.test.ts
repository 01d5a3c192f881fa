/**
 * Verification of the force against published rules:
 * - ISO 7500-1:1999 annex C, adopted word for word as IS 1828 (Part 1):2005: q = 100 (Fi − F)/F for each run,
 *   b = |q1 − q2|; the class table is the same for both methods.
 * - ASTM E4-16, 10.1, 10.2, 10.3.2: lower limit 200 times the resolution, five forces in a range or decade, steps from
 *   1/20 to 1/3 of it, ratios 1:2:4:7:10; ±1 %.
 * - The limits of ISO 7500-1 table 2 are from memory.
 */
import { describe, expect, it } from 'vitest';
import { verifyForce } from '../../core/verification/verify-force.ts';
import { readWorksheet } from '../../core/verification/worksheet.ts';

function verified(sheet: object) {
  const outcome = readWorksheet(sheet);
  if (!outcome.ok) throw new Error(outcome.faults.map((fault) => fault.sentence).join(' '));
  return verifyForce(outcome.read);
}

/** Five forces of one range, ratios 1:2:4:7:10, all of them right. */
const RIGHT = ['10', '20', '40', '70', '100'].map((applied) => ({
  applied,
  indicated: [applied, applied, applied],
}));
const sheet = (over: object = {}, last: object = {}) => ({
  unit: 'kN',
  resolution: '0.01',
  zeros: ['0', '0', '0'],
  steps: [...RIGHT.slice(0, 4), { ...RIGHT[4], ...last }],
  ...over,
});

describe('errors of a run', () => {
  it('are those of ISO 7500-1:1999 annex C: q of each run against the force applied, b the difference of the errors', () => {
    const result = verified({
      unit: 'kN',
      resolution: '0.01',
      steps: [{ applied: ['50.00', '49.90'], indicated: ['50.25', '50.00'] }],
    });
    // (50.25 − 50)/50 = 0.5 %; (50 − 49.9)/49.9 = 0.200 4 %; their difference 0.299 6 %.
    expect(result.steps[0]?.repeatability.percent).toBeCloseTo(0.5 - 10 / 49.9, 12);
    expect(result.steps[0]?.e4.error.percent).toBe(0.5);
    expect(result.steps[0]?.e4.repeatability.percent).toBeCloseTo(0.2996, 4);
  });
});

describe('the class by ISO 7500-1, table 2 (from memory)', () => {
  it.each([
    ['q', '100.5', '0.5'],
    ['q', '100.501', '1'],
    ['q', '101', '1'],
    ['q', '98.999', '2'],
    ['q', '102', '2'],
    ['q', '103', '3'],
    ['q', '103.001', null],
  ])('%s: 100 kN shown as %s kN in every run is class %s', (_, shown, expected) => {
    const result = verified(sheet({}, { indicated: [shown, shown, shown] }));
    expect(result.steps[4]?.isoClass).toBe(expected);
    expect(result.iso.class).toBe(expected);
  });

  it.each([
    [['99.75', '100', '100.25'], '0.5'],
    [['99.749', '100', '100.25'], '1'],
    [['99.5', '100', '100.5'], '1'],
    [['99', '100', '101'], '2'],
    [['98.5', '100', '101.5'], '3'],
    [['98.499', '100', '101.5'], null],
  ])('b: runs of %j at 100 kN are class %s', (indicated, expected) => {
    expect(verified(sheet({}, { indicated })).iso.class).toBe(expected);
  });

  it.each([
    ['100.75', '0.5'],
    ['101.5', '1'],
    ['97', '2'],
    ['104.5', '3'],
    ['104.51', null],
  ])('v: 100 kN shown as %s kN on the way down is class %s', (indicated, expected) => {
    expect(verified(sheet({}, { descending: { indicated } })).iso.class).toBe(expected);
  });

  it.each([
    ['0.05', '0.5'],
    ['-0.1', '1'],
    ['0.2', '2'],
    ['0.3', '3'],
    ['0.301', null],
  ])('f0: %s kN left of 100 kN is class %s', (left, expected) => {
    expect(verified(sheet({ zeros: ['0', left, '0'] })).iso.class).toBe(expected);
  });

  it.each([
    ['0.025', '0.5'],
    ['0.05', '1'],
    ['0.1', '2'],
    ['0.15', '3'],
    ['0.2', null],
  ])('a: one digit of %s kN at the lowest force of 10 kN is class %s', (resolution, expected) => {
    expect(verified(sheet({ resolution })).iso.class).toBe(expected);
  });

  it('lets the resolution carry each class down to 400, 200, 100 and 67 times itself', () => {
    const { lowerLimits } = verified(sheet({ resolution: '0.02' })).iso;
    expect(['0.5', '1', '2', '3'].map((one) => lowerLimits[one as '1'].text)).toEqual([
      '8',
      '4',
      '2',
      '1.34',
    ]);
  });
});

describe('ASTM E4', () => {
  it.each([
    ['101', true],
    ['101.001', false],
    ['99', true],
    ['98.999', false],
  ])('takes an error of 1 %% and no more: 100 kN shown as %s kN once', (shown, within) => {
    const result = verified(twoRuns(shown));
    expect(result.e4.wholeRange).toBe(within);
  });

  it('verifies no force below 200 times the resolution (E4-16, 10.1)', () => {
    const result = verified(sheet({ resolution: '0.2' }));
    expect(result.e4.lowerLimit.value).toBe(40);
    expect(result.e4.range).toMatchObject({ from: 40, to: 100 });
    expect(result.remarks.join(' ')).toContain('2 of the forces lie below 200 times the resolution');
  });

  it('has nothing to say of the ratios 1:2:4:7:10 that it suggests, also over two decades (10.2, 10.3.2)', () => {
    const two = ['1', '2', '4', '7', '10', '20', '40', '70', '100'].map((applied) => ({
      applied,
      indicated: [applied, applied, applied],
      descending: { indicated: applied },
    }));
    expect(verified({ unit: 'kN', resolution: '0.001', zeros: ['0', '0', '0'], steps: two }).remarks).toEqual(
      [],
    );
  });

  it('tells of too few forces and of steps wider than a third of the range', () => {
    const of = (...forces: string[]) =>
      verified({
        unit: 'kN',
        resolution: '0.01',
        steps: forces.map((applied) => ({ applied, indicated: [applied, applied] })),
      }).remarks.join(' ');
    expect(of('20', '60', '100')).toContain('3 forces lie from 20 to 100 kN');
    expect(of('20', '30', '40', '50', '100')).toContain('50 and 100 kN lie further apart than a third');
  });
});

function twoRuns(shown: string): object {
  return {
    unit: 'kN',
    resolution: '0.01',
    steps: [
      ...RIGHT.slice(0, 4).map(({ applied }) => ({ applied, indicated: [applied, applied] })),
      { applied: '100', indicated: [shown, shown] },
    ],
  };
}
