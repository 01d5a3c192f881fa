import { describe, expect, it } from 'vitest';
import { exactFromNumber } from '../../../core/quantity/exact.ts';
import type { Result } from '../../../core/results/result.ts';
import { roundedArea, roundedStrength, shopArea, shopStrength } from '../../../core/results/shop-area.ts';
import { proseInSystem, shownInSystem } from '../../../core/results/shown-in-system.ts';
import { withRounding } from '../../../core/results/rounding.ts';

/** 24 000 N on 75 mm². */
const STRENGTH: Result = {
  symbol: 'Rm',
  name: 'tensile strength',
  value: 320,
  unit: 'MPa',
  rounded: [],
  method: 'largest reading, between 27.71 and 110.8 MPa',
  working: {
    formula: 'Rm = Fm / S0',
    inputs: [
      { symbol: 'Fm', name: 'largest force', value: 24_000, unit: 'N', from: 'reading no. 12' },
      { symbol: 'S0', name: 'area', value: 75, unit: 'mm²', from: 'width × thickness' },
      { symbol: 'e', name: 'strain', value: 1.5, unit: '%', from: 'same reading' },
    ],
    substituted: 'Rm = 24000 N / 75 mm² = 320 MPa, reading no. 12 of 40',
    source: 'definition',
    steps: ['stiffness 12 N/mm at 1.5 %', 'typed as 1/2 in', 'S0 = 0.11625 in² = 75 mm²'],
  },
  uncertainty: {
    standard: 1.6,
    expanded: 3.2,
    coverageFactor: 2,
    budget: [
      {
        source: 'force',
        standard: 120,
        unit: 'N',
        sensitivity: 1.6 / 120,
        contribution: 1.6,
        distribution: 'normal',
      },
    ],
  },
};
const MEASURED_IN_MM = withRounding(STRENGTH, 'iso-6892-1', 'SI');

describe('a result of a specimen measured in millimetres, shown in US customary units', () => {
  const shown = shownInSystem(MEASURED_IN_MM, { units: 'us', measuredIn: 'SI' });

  it('has its value in psi by the exact factor (NIST SP 811: 1 psi = 6.894757 kPa)', () => {
    expect(shown.unit).toBe('psi');
    expect(shown.value).toBeCloseTo(320e3 / 6.894757, 1);
  });

  it('is reported in psi by ASTM E8/E8M, ties by E29: to 100 psi below 50 000 (from memory)', () => {
    expect(shown.rounded).toMatchObject([{ text: '46400', unit: 'psi', step: 100 }]);
    expect(shown.rounded[0]?.rule).toContain('ASTM E8/E8M');
  });

  it('or by the rule that was asked for', () => {
    const asked = shownInSystem(MEASURED_IN_MM, { units: 'us', measuredIn: 'SI', rounding: 'e8-3' });
    expect(asked.rounded[0]).toMatchObject({ text: '46500', unit: 'psi', step: 500 });
  });

  it('has a working in the same units, that comes out', () => {
    const { inputs, substituted } = shown.working;
    expect(inputs.map(({ unit }) => unit)).toEqual(['lbf', 'in²', '%']);
    // 24 000 N = 5 395.41 lbf, 75 mm² = 0.11625 in² (NIST SP 811 factors).
    expect(substituted).toBe('Rm = 5395.41 lbf / 0.11625 in² = 46412.1 psi, reading no. 12 of 40');
    expect(5395.41 / 0.11625).toBeCloseTo(46_412.1, 0);
  });

  it('puts in what was measured, not what its text in the other unit was cut to', () => {
    // A load of 3 000.2 lbf on 0.1 in²: 13 345.55 N (NIST SP 811: 1 lbf = 4.448222 N), said with six digits.
    const forceN = 3_000.2 * 4.4482216152605;
    const working = {
      ...MEASURED_IN_MM.working,
      inputs: [
        { symbol: 'Fm', name: 'largest force', value: forceN, unit: 'N', from: 'reading no. 3' },
      ] as const,
      substituted: 'Fm = 13345.6 N, reading no. 3 of 4',
    };
    const load = { ...MEASURED_IN_MM, symbol: 'Fm', value: forceN, unit: 'N', working } as const;
    expect(shownInSystem(load, { units: 'us', measuredIn: 'SI' }).working.substituted).toBe(
      'Fm = 3000.2 lbf, reading no. 3 of 4',
    );
  });

  it('makes no digits out of a stress that was rounded before: 886.8 and 886.9 MPa are told apart by 10 psi', () => {
    const steps = ['between 886.8 MPa and 886.9 MPa'];
    const working = { ...MEASURED_IN_MM.working, steps };
    const both = shownInSystem({ ...MEASURED_IN_MM, working }, { units: 'us', measuredIn: 'SI' });
    // 886.8 MPa = 128 619.5 psi, 886.9 MPa = 128 634.0 psi.
    expect(both.working.steps).toEqual(['between 128620 psi and 128630 psi']);
  });

  it('has the shop’s arithmetic done anew in inches from the unrounded area: a rounded one in mm² is not converted', () => {
    // 12.7 mm round: 126.6769 mm² = 0.196350 in² (π/4 × 0.5²), which the shop writes 0.1963; 126.7 mm² would be 0.196385.
    const areaMm2 = (Math.PI * 12.7 ** 2) / 4;
    const forceN = 60_000;
    const area = shopArea(exactFromNumber(areaMm2), 'mm²');
    const shop = shopStrength(forceN, area);
    const rm: Result = {
      ...STRENGTH,
      value: forceN / areaMm2,
      rounded: [
        ...withRounding({ ...STRENGTH, value: forceN / areaMm2 }, 'iso-6892-1', 'SI').rounded,
        roundedStrength(shop),
      ],
      working: {
        ...STRENGTH.working,
        inputs: [
          { symbol: 'Fm', name: 'largest force', value: forceN, unit: 'N', from: 'reading no. 12' },
          { symbol: 'S0', name: 'area', value: areaMm2, unit: 'mm²', from: 'diameter' },
        ],
        steps: [shop.substituted],
      },
    };
    const inUs = shownInSystem(rm, { units: 'us', measuredIn: 'SI' });
    // 60 000 N = 13 488.54 lbf (NIST SP 811); 13 488.54 / 0.1963 = 68 713.9, / 0.1963495 = 68 696.6.
    expect(inUs.working.steps).toEqual([
      '13489 lbf / 0.1963 in² = 68714 psi (area rounded first); on the unrounded area 68697 psi',
    ]);
    expect(inUs.rounded.map(({ text, unit }) => `${text} ${unit}`)).toEqual(['68500 psi', '68714 psi']);
    const inSi = shownInSystem(rm, { units: 'si', measuredIn: 'SI' });
    expect(inSi.working.steps).toEqual(rm.working.steps);
    expect(inSi.rounded).toEqual(rm.rounded);
    const s0: Result = {
      ...STRENGTH,
      symbol: 'S0',
      value: areaMm2,
      unit: 'mm²',
      rounded: [roundedArea(area)],
      working: { ...STRENGTH.working, inputs: [], substituted: 'S0 = π × (12.7 mm)² / 4 = 126.6769 mm²' },
    };
    const areaInUs = shownInSystem(s0, { units: 'us', measuredIn: 'SI' });
    expect(areaInUs.working.substituted).toBe('S0 = π × (0.5 in)² / 4 = 0.19635 in²');
    expect(areaInUs.rounded).toMatchObject([{ text: '0.1963', unit: 'in²', step: 0.0001 }]);
  });

  it('leaves what is no quantity of its own, and fractions as they were typed', () => {
    expect(shown.working.steps).toEqual([
      'stiffness 12 N/mm at 1.5 %',
      'typed as 1/2 in',
      'S0 = 0.11625 in²',
    ]);
    expect(shown.method).toBe('largest reading, between 4019 and 16070 psi');
  });

  it('has an uncertainty of the same share of the value', () => {
    expect((shown.uncertainty?.expanded ?? 0) / shown.value).toBeCloseTo(3.2 / 320, 12);
    const [line] = shown.uncertainty?.budget ?? [];
    expect(line?.unit).toBe('lbf');
    expect((line?.sensitivity ?? 0) * (line?.standard ?? 0)).toBeCloseTo(line?.contribution ?? 0, 9);
  });
});

describe('a result of a specimen measured in inches', () => {
  const measured = withRounding(STRENGTH, 'e8-1', 'US');

  it('keeps its reported value where it is shown as it was measured', () => {
    expect(shownInSystem(measured, { units: 'us', measuredIn: 'US' }).rounded).toEqual(measured.rounded);
  });

  it('is reported in MPa by ISO 6892-1 where it is shown in SI', () => {
    const shown = shownInSystem(measured, { units: 'si', measuredIn: 'US' });
    expect(shown).toMatchObject({
      value: 320,
      unit: 'MPa',
      rounded: [{ text: '320', unit: 'MPa', step: 1 }],
    });
    expect(shown.working.steps?.[2]).toBe('S0 = 75 mm²');
  });
});

describe('a sentence about the record', () => {
  // ASTM E8/E8M: 1.15 to 11.5 MPa/s is 10 000 to 100 000 psi/min.
  it('has its rates in the system shown, ranges included, with three digits at least', () => {
    expect(proseInSystem('Outside: 19.7 MPa/s, allowed 1.15 to 11.5 MPa/s over 50 mm.', 'us')).toBe(
      'Outside: 171000 psi/min, allowed 10000 to 100000 psi/min over 1.97 in.',
    );
  });

  // 1 MPa = 145.0377 psi (NIST SP 811, appendix B).
  it('has both ends of a range that is written with a dash', () => {
    expect(proseInSystem('The slope is fitted between the stresses 138 – 276 MPa.', 'us')).toBe(
      'The slope is fitted between the stresses 20000 – 40000 psi.',
    );
  });

  it('stays as it is in the system in which it was said, and where nothing in it has another unit', () => {
    for (const text of ['Allowed 1.15 to 11.5 MPa/s over 50 mm.', 'ISO 6892-1, 0.00025 1/s, reading no. 12'])
      expect(proseInSystem(text, 'si')).toBe(text);
    expect(proseInSystem('ISO 6892-1, 0.00025 1/s, reading no. 12', 'us')).toContain('0.00025 1/s, reading');
  });
});
