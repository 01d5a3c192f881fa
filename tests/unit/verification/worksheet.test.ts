/** The worksheet as it is typed, and what must hold of every verification whatever was read. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { verifyForce } from '../../../core/verification/verify-force.ts';
import { readWorksheet } from '../../../core/verification/worksheet.ts';

const SHEET = {
  unit: 'kN',
  resolution: '0.01',
  zeros: ['0.00', '0.01', '0.00'],
  steps: [
    { applied: '10', indicated: ['10.02', '10.01', '10.03'] },
    { applied: '20', indicated: ['20.02', '20.05', '20.03'], descending: { indicated: '20.08' } },
  ],
};
const faultsOf = (sheet: unknown): string[] => {
  const outcome = readWorksheet(sheet);
  return outcome.ok ? [] : outcome.faults.map((fault) => fault.sentence);
};
const verified = (sheet: object) => {
  const outcome = readWorksheet(sheet);
  if (!outcome.ok) throw new Error(outcome.faults.map((fault) => fault.sentence).join(' '));
  return verifyForce(outcome.read);
};

describe('a worksheet', () => {
  it('writes the arithmetic out as it would be done by hand', () => {
    const [first, second] = verified(SHEET).steps;
    expect(first?.error.working.substituted).toBe('q = 100 × (10.02 − 10) / 10 = 0.200 %');
    expect(first?.repeatability.working.substituted).toBe('b = 0.300 % − 0.100 % = 0.200 %');
    expect(first?.resolution.working.substituted).toBe('a = 100 × 0.01 / 10 = 0.100 %');
    expect(second?.reversibility?.working.substituted).toBe('v = 0.400 % − 0.150 % = 0.250 %');
    expect(verified(SHEET).zero?.working.substituted).toBe('f0 = 100 × 0.01 / 20 = 0.050 %');
  });

  it('has a class by ISO 7500-1 from five forces on (from memory)', () => {
    const more = ['40', '60', '80'].map((applied) => ({ applied, indicated: [applied, applied, applied] }));
    expect(verified({ ...SHEET, steps: [...SHEET.steps, ...more] }).iso).toMatchObject({
      class: '0.5',
      withheld: [],
    });
    const { iso } = verified({ ...SHEET, steps: [...SHEET.steps, ...more.slice(1)] });
    expect(iso.class).toBeNull();
    expect(iso.withheld.join()).toContain('rests on 5 forces at least (from memory); the worksheet has 4.');
  });

  it('takes one indicated force for all runs with the reference read in each, and decimal commas', () => {
    const [step] = verified({
      unit: 'kN',
      resolution: '0,01',
      steps: [{ applied: ['49,5', '50', '50,5'], indicated: '50' }],
    }).steps;
    expect(step?.appliedText).toBe('50');
    expect(step?.error.text).toBe('0.000');
    // 50/49.5 − 50/50.5, in percent.
    expect(step?.repeatability.percent).toBeCloseTo(100 * (50 / 49.5 - 50 / 50.5), 12);
  });

  it.each([
    [{ ...SHEET, resolution: '0' }, /^resolution: "0" is not greater than zero/],
    [{ ...SHEET, steps: [{ applied: '-5', indicated: ['5'] }] }, /steps\[0\]\.applied: .*zeros/],
    [{ ...SHEET, steps: [...SHEET.steps].reverse() }, /steps\[1\]\.applied: the forces do not ascend/],
    [{ ...SHEET, zeros: ['0', '0'] }, /^zeros: 2 figures stand here, but the worksheet has 3 runs/],
    [
      { ...SHEET, steps: [SHEET.steps[0], { applied: '20', indicated: ['20', '20'] }] },
      /steps\[1\]\.indicated: 2 figures/,
    ],
    [{ ...SHEET, unit: 'mm' }, /^unit: "mm" is not known here/],
    [{ ...SHEET, steps: [] }, /^steps: this list is empty/],
    [{ ...SHEET, resolutoin: '1' }, /"resolution"|resolutoin/],
    [{ ...SHEET, resolution: '10.02 kN' }, /^resolution: write one number/],
    [{ ...SHEET, resolution: Number.NaN }, /^resolution/],
    [{ ...SHEET, resolution: '1e999' }, /^resolution: this is beyond anything/],
    [{ ...SHEET, steps: [{ applied: '1e-300', indicated: ['1'] }] }, /beyond anything that can be measured/],
    [null, /worksheet/i],
  ])('is told what is wrong and where: %#', (sheet, sentence) => {
    expect(faultsOf(sheet).join('\n')).toMatch(sentence);
  });

  it('states no class on two runs or without the zeros, and says what is missing', () => {
    const two = { ...SHEET, zeros: undefined, steps: [{ applied: '10', indicated: ['10', '10'] }] };
    const { iso, e4 } = verified(two);
    expect(iso.class).toBeNull();
    expect(iso.withheld.join(' ')).toMatch(/3 runs.*zeros/);
    expect(e4.wholeRange).toBe(true);
    expect(verified({ ...two, steps: [{ applied: '10', indicated: '10' }] }).e4.withheld.join()).toContain(
      'add another',
    );
  });

  it('holds a class only where nothing above breaks it', () => {
    const at = (applied: string, shown: string) => ({ applied, indicated: [shown, shown, shown] });
    const { iso, e4 } = verified({
      ...SHEET,
      steps: [at('10', '10'), at('20', '20.3'), at('40', '40'), at('60', '60'), at('80', '80.4')],
    });
    expect(iso.class).toBe('2');
    expect(iso.ranges['0.5']).toMatchObject({ from: 40, to: 80 });
    expect(iso.ranges['2']).toMatchObject({ from: 10, to: 80 });
    expect(e4.range).toMatchObject({ from: 40, to: 80 });
    expect(e4.wholeRange).toBe(false);
  });
});

const cents = fc.integer({ min: 1, max: 5_000_000 });
const text = (value: number): string =>
  `${String(Math.trunc(value / 100))}.${String(value % 100).padStart(2, '0')}`;

describe('every verification', () => {
  it('is the same in any unit: percentages have none', () => {
    fc.assert(
      fc.property(cents, fc.array(cents, { minLength: 3, maxLength: 3 }), (applied, indicated) => {
        const sheet = (unit: string) =>
          verified({
            unit,
            resolution: '0.01',
            steps: [{ applied: text(applied), indicated: indicated.map(text) }],
          }).steps[0];
        const [a, b] = [sheet('kN'), sheet('lbf')];
        expect(a?.error.percent).toBe(b?.error.percent);
        expect(a?.isoClass).toBe(b?.isoClass);
      }),
    );
  });

  it('finds the error that was put in, within 10⁻⁹, and no class where it is passed', () => {
    fc.assert(
      fc.property(cents, fc.integer({ min: -9_999, max: 9_999 }), (applied, partsPer100000) => {
        const shown = (BigInt(applied) * BigInt(100_000 + partsPer100000)).toString().padStart(8, '0');
        const indicated = `${shown.slice(0, -7)}.${shown.slice(-7)}`;
        const [step] = verified({
          unit: 'N',
          resolution: '0.0000001',
          steps: [{ applied: text(applied), indicated: [indicated, indicated, indicated] }],
        }).steps;
        const percent = partsPer100000 / 1000;
        expect(step?.error.percent).toBeCloseTo(percent, 9);
        const expected =
          Math.abs(percent) <= 0.5
            ? '0.5'
            : Math.abs(percent) <= 1
              ? '1'
              : Math.abs(percent) <= 2
                ? '2'
                : Math.abs(percent) <= 3
                  ? '3'
                  : null;
        if (applied > 100) expect(step?.isoClass).toBe(expected);
      }),
    );
  });

  it('answers whatever comes, with a result or with sentences', () => {
    fc.assert(
      fc.property(fc.anything(), (input) => {
        const outcome = readWorksheet(input);
        if (outcome.ok) verifyForce(outcome.read);
        else expect(outcome.faults.length).toBeGreaterThan(0);
      }),
    );
  });
});
