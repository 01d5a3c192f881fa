import { describe, expect, it } from 'vitest';
import type { EvaluationOptions } from '../../../core/results/evaluation.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { shownInSystem } from '../../../core/results/shown-in-system.ts';
import { curveToPeak, specimenFrom } from '../../../core/self-check/program-under-check.ts';
import type { Curve } from '../../../core/curve/curve.ts';

const inches = {
  geometry: { kind: 'flat', width: '0.5125 in', thickness: '0.1175 in' },
  gaugeLength: '2 in',
};

function results(curve: Curve, file: object, options: EvaluationOptions = {}) {
  const { results: list } = evaluate(curve, specimenFrom(file), options);
  return (symbol: string) => {
    const result = list.find((r) => r.symbol === symbol);
    if (result === undefined) throw new Error(`no ${symbol}`);
    return result;
  };
}

/** 100 mm², 50 mm: 200 GPa to 400 MPa, hardening to 500 MPa, one reading every 0.1 s. */
function pull(): Curve {
  const strain = Float64Array.from({ length: 600 }, (_, i) => i * 0.0001);
  const stress = strain.map((e) =>
    e <= 0.002 ? 200_000 * e : 400 + 100 * (1 - ((0.058 - (e - 0.002)) / 0.058) ** 2),
  );
  return {
    length: 600,
    timeS: strain.map((_, i) => i / 10),
    extensionMm: strain.map((e) => e * 50),
    forceN: stress.map((s) => s * 100),
  };
}
/** The same, broken at the end. */
function brokenPull(): Curve {
  const curve = pull();
  return { ...curve, forceN: curve.forceN?.map((f, i) => (i > 590 ? 5 : f)) ?? new Float64Array() };
}

const square = {
  geometry: { kind: 'flat', width: '20.00 mm', thickness: '5.00 mm' },
  gaugeLength: '50.00 mm',
  finalGaugeLength: '60.00 mm',
  finalWidth: '16.00 mm',
  finalThickness: '4.00 mm',
  instrumentResolution: '0.01 mm',
  instrumentUncertainty: '0.02 mm',
};

describe("the shop's slip of paper beside Rm", () => {
  it('3 815 lbf on 0.06022 in² is 63 351 psi, on the unrounded area 63 352 psi (common practice, no source)', () => {
    const rm = results(curveToPeak(3815, 'lbf'), inches)('Rm');
    expect(rm.value).toBeCloseTo(63_352.36 * 0.006894757293168, 4);
    expect(rm.rounded.map((r) => `${r.text} ${r.unit}`)).toEqual(['63500 psi', '63351 psi']);
    expect(rm.rounded[1]?.rule).toMatch(/common practice, no source/);
    expect(rm.working.steps?.at(-1)).toBe(
      '3815 lbf / 0.06022 in² = 63351 psi (area rounded first); on the unrounded area 63352 psi',
    );
  });
});

describe('a working of what was measured in inches', () => {
  const measured = {
    ...inches,
    gaugeLength: '2.0000 in',
    finalWidth: '0.4012 in',
    finalThickness: '0.0811 in',
  };
  const shown = (file: object, symbol: string) =>
    shownInSystem(results(brokenPull(), file)(symbol), { units: 'us', measuredIn: 'US' }).working;

  it('comes back in inches as it was measured, its areas from what was not rounded', () => {
    const z = shown(measured, 'Z');
    // 0.4012 × 0.0811 = 0.032 537 32.
    expect(z.steps).toEqual(['Su = 0.4012 in × 0.0811 in = 0.0325373 in²']);
    expect(z.inputs.find(({ symbol }) => symbol === 'Su')).toMatchObject({ unit: 'in²' });
    expect(z.inputs.find(({ symbol }) => symbol === 'Su')?.value).toBeCloseTo(0.03253732, 12);
    expect(shown(measured, 'Agt').inputs[0]?.from).toContain('of 2 in');
  });

  it('leaves what was typed as it was typed', () => {
    const lengths = { ...square, gaugeLength: '50.00 mm', finalGaugeLength: '60.00 mm' };
    expect(shown(lengths, 'A').inputs.map(({ from, unit }) => [from, unit])).toEqual([
      ['measured as 50.00 mm', 'in'],
      ['measured as 60.00 mm', 'in'],
    ]);
  });
});

describe('the rule that rounds', () => {
  it('is ISO 6892-1 for millimetres, ASTM E8/E8M (1) for inches, or the one asked for', () => {
    const rule = (file: object, options: EvaluationOptions = {}) =>
      results(curveToPeak(60_000, 'N'), file, options)('Rm').rounded[0]?.rule;
    expect(rule(square)).toBe('ISO 6892-1: to 1 MPa');
    expect(rule(inches)).toBe('ASTM E8/E8M (1): to 1000 psi');
    expect(rule(square, { rounding: 'e8-3' })).toBe('ASTM E8/E8M (3): to 5 MPa');
    expect(rule(square, { rounding: 'none' })).toMatch(/^shop arithmetic/);
  });
});

describe('uncertainty', () => {
  it('stands beside S0, Rm, Rp0.2, A and Z, each with its budget', () => {
    const of = results(brokenPull(), square, {
      measuring: { readoutClass: '0.5', extensometerClass: '0.5' },
    });
    for (const symbol of ['S0', 'Rm', 'Rp0.2', 'A', 'Z']) {
      const { uncertainty, value } = of(symbol);
      expect(uncertainty?.expanded, symbol).toBeGreaterThan(0);
      expect(uncertainty?.expanded, symbol).toBeLessThan(0.05 * value);
      expect(uncertainty?.budget.length, symbol).toBeGreaterThan(1);
    }
    // Class 0.5 is ±0.5 %, rectangular: 0.29 % of Rm; the section adds a little (GUM, by hand).
    expect(of('Rm').uncertainty?.standard ?? 0).toBeGreaterThan((0.005 / Math.sqrt(3)) * of('Rm').value);
    expect(
      of('Rp0.2')
        .uncertainty?.budget.map((l) => l.source)
        .join(),
    ).toMatch(/slope of the elastic part.*extensometer/);
  });

  it('is not given to A from an extensometer as if it were from the halves', () => {
    const { finalGaugeLength, ...without } = square;
    expect(finalGaugeLength).toBe('60.00 mm');
    const broken = brokenPull();
    const a = results(broken, without)('A');
    expect(a.uncertainty).toBeUndefined();
    expect(results(broken, square)('A').uncertainty).toBeDefined();
  });
});

describe('what else stands beside the results', () => {
  it('is the speed of testing, the resolution of the instrument and the facts of the section', () => {
    const evaluation = evaluate(pull(), specimenFrom(square));
    // 0.0001 of strain every 0.1 s is 0.001 per s, 200 MPa/s in the elastic part.
    const rate = (stage: string, quantity: string) =>
      evaluation.speed?.measured.find((m) => m.stage === stage && m.quantity === quantity)?.rate;
    expect(rate('elastic', 'stress-rate')).toBeCloseTo(200, 0);
    expect(rate('yield', 'strain-rate')).toBeCloseTo(0.001, 6);
    expect(rate('to-maximum', 'strain-rate')).toBeCloseTo(0.001, 6);
    expect(evaluation.resolution?.map((r) => r.verdict)).toEqual(Array(4).fill('fine-enough'));
    expect(evaluation.section).toMatchObject({ section: 'mean', meanMm2: 100, leastMm2: 100 });
  });

  it('says at S0 that the calliper was too coarse', () => {
    const coarse = { ...square, instrumentResolution: '0.5 mm' };
    expect(results(pull(), coarse)('S0').remarks?.[0]).toMatch(/too coarse/);
  });
});
