import { describe, expect, it } from 'vitest';
import { type SpeedInput, speedSentence, testingSpeed } from '../../../core/results/testing-speed.ts';
import type { SpeedStage } from '../../../core/results/speed-windows.ts';
import { convert } from '../../../core/quantity/units.ts';

const READINGS = 300;

/** A pull with a steady rate in each stage: 100 readings of elastic, 100 through yield, 100 to the maximum. */
function pull(rates: {
  readonly stressMpaPerS: number;
  readonly strainPerS?: number;
  readonly travelMmPerS?: number;
}): SpeedInput {
  const timeS = Float64Array.from({ length: READINGS }, (_, i) => 5 + i * 0.1);
  const ramp = (rate: number) => timeS.map((t) => 3 + rate * t);
  return {
    timeS,
    stress: { column: ramp(rates.stressMpaPerS * 100), zero: 7, factor: 0.01 },
    ...(rates.strainPerS === undefined
      ? {}
      : { strain: { column: ramp(rates.strainPerS * 50), zero: 0, factor: 1 / 50 } }),
    ...(rates.travelMmPerS === undefined ? {} : { travelMm: ramp(rates.travelMmPerS), parallelLengthMm: 60 }),
    stages: {
      elastic: { from: 0, to: 100 },
      yield: { from: 100, to: 200 },
      'to-maximum': { from: 200, to: 300 },
    },
    slopeMpa: 205_000,
  };
}

const verdict = (input: SpeedInput, standard: string, method: RegExp, stage: SpeedStage) =>
  testingSpeed(input).checks.find(
    (c) => c.standard === standard && method.test(c.method) && c.stage === stage,
  );

describe('rates', () => {
  it('are least-squares slopes over time, in MPa/s and 1/s', () => {
    const { measured } = testingSpeed(pull({ stressMpaPerS: 10, strainPerS: 0.00025, travelMmPerS: 0.03 }));
    const rate = (stage: SpeedStage, quantity: string) =>
      measured.find((m) => m.stage === stage && m.quantity === quantity)?.rate;
    expect(rate('elastic', 'stress-rate')).toBeCloseTo(10, 9);
    expect(rate('yield', 'strain-rate')).toBeCloseTo(0.00025, 12);
    expect(rate('to-maximum', 'crosshead-rate')).toBeCloseTo(0.0005, 12);
  });

  it('are the same in a stage of a million readings, from the means of its ends', () => {
    const timeS = Float64Array.from({ length: 1_000_000 }, (_, i) => i / 1000);
    const strain = { column: timeS.map((t) => 2 + 0.1 * t), zero: 0, factor: 1 / 50 };
    const stages = { 'to-maximum': { from: 10, to: 999_990 } };
    const { measured } = testingSpeed({ timeS, strain, stages });
    expect(measured).toHaveLength(1);
    expect(measured[0]?.rate).toBeCloseTo(0.002, 12);
  });

  it('pass over readings that are not there', () => {
    const input = pull({ stressMpaPerS: 10 });
    for (const i of [0, 17, 99]) if (input.stress) input.stress.column[i] = Number.NaN;
    expect(testingSpeed(input).measured[0]?.rate).toBeCloseTo(10, 9);
  });
});

describe('against the windows', () => {
  // E8 method A: 10 000 to 100 000 psi/min (test laboratory summary).
  it.each([
    [10_000, 'within'],
    [100_000, 'within'],
    [9_900, 'outside'],
    [101_000, 'outside'],
  ])('E8/E8M method A at %d psi/min: %s', (psiPerMinute, expected) => {
    const input = pull({ stressMpaPerS: convert(psiPerMinute, 'psi/min', 'MPa/s') });
    expect(verdict(input, 'ASTM E8/E8M', /method A/, 'elastic')?.verdict).toBe(expected);
  });

  // ISO 6892-1 method A, range 2: 0.00025 1/s ± 20 %.
  it.each([
    ['within', 0.0002],
    ['within', 0.0003],
    ['within', 0.0002 * (1 - 1e-12)],
    ['within', 0.0003 * (1 + 1e-12)],
    ['outside', 0.0002 * (1 - 1e-6)],
    ['outside', 0.0003 * (1 + 1e-6)],
  ])('at a limit, or off by the dust of binary fractions: %s at %d 1/s', (expected, strainPerS) => {
    const input = pull({ stressMpaPerS: 10, strainPerS: 0.001 });
    const timeS = input.timeS ?? new Float64Array();
    const from = timeS[0] ?? 0;
    const strain = { column: timeS.map((t) => (t - from) * strainPerS), zero: 0, factor: 1 };
    const found = verdict({ ...input, strain }, 'ISO 6892-1', /method A, through yield/, 'yield');
    expect(found?.verdict).toBe(expected);
  });

  it('at a limit told in inches: the same verdict as in millimetres', () => {
    const input = pull({ stressMpaPerS: 10 });
    const timeS = input.timeS ?? new Float64Array();
    for (const [column, gauge] of [
      [timeS.map((t) => t * 0.0002 * 50), 50],
      [timeS.map((t) => convert(t * 0.0002 * 2, 'in', 'mm')), convert(2, 'in', 'mm')],
    ] as const) {
      const strain = { column, zero: 0, factor: 1 / gauge };
      const found = verdict({ ...input, strain }, 'ISO 6892-1', /method A, through yield/, 'yield');
      expect(found?.sentence).toMatch(/^Within: /);
    }
  });

  it('says by how much it was too fast or too slow', () => {
    const fast = verdict(pull({ stressMpaPerS: 61.5 }), 'ISO 6892-1', /method B/, 'elastic');
    expect(fast?.verdict).toBe('outside');
    expect(fast?.beyond).toBeCloseTo(1.5, 9);
    expect(fast?.sentence).toMatch(/too fast by 1\.5 MPa\/s; allowed 6 to 60 MPa\/s/);
    const slow = verdict(pull({ stressMpaPerS: 5 }), 'ISO 6892-1', /method B/, 'elastic');
    expect(slow?.beyond).toBeCloseTo(-1, 9);
    expect(slow?.sentence).toMatch(/too slow/);
  });

  it('hands out the verdict in a word and the reason apart from it, and both as one sentence', () => {
    const all = [pull({ stressMpaPerS: 61.5 }), pull({ stressMpaPerS: 10 })].flatMap(
      (input) => testingSpeed(input).checks,
    );
    expect(new Set(all.map((c) => c.verdictWord))).toEqual(new Set(['Within', 'Outside', "Can't tell"]));
    for (const c of all) {
      expect(c.sentence).toBe(`${c.verdictWord}: ${c.reason}`);
      expect(c.reason).not.toMatch(/^(?:within|outside|can't tell)/i);
    }
  });

  // 10 000 to 100 000 psi/min is 1.149 to 11.49 MPa/s (exact factor of the psi); 19.7 MPa/s is 171 436 psi/min.
  it('says it in psi a minute too, from the figures, limits and excess included', () => {
    const fast = verdict(pull({ stressMpaPerS: 19.7 }), 'ASTM E8/E8M', /method A/, 'elastic');
    if (fast === undefined) throw new Error('no check');
    expect(speedSentence(fast, 'us')).toBe(
      'Outside: stress rate 171000 psi/min in the elastic part, too fast by 71400 psi/min; allowed 10000 to 100000 psi/min.',
    );
    expect(speedSentence(fast, 'si')).toBe(fast.sentence);
    const unknown = testingSpeed({ stages: {} }).checks[0];
    if (unknown === undefined) throw new Error('no check');
    expect(speedSentence(unknown, 'us')).toBe(unknown.sentence);
  });

  // ISO 6892-1 method A, range 2: 0.00025 per s ± 20 %.
  it.each([
    [0.0003, 'within'],
    [0.0002, 'within'],
    [0.00031, 'outside'],
    [0.00007, 'within'],
    [0.0001, 'outside'],
  ])('ISO 6892-1 method A through yield at %d per s: %s', (strainPerS, expected) => {
    const input = pull({ stressMpaPerS: 10, strainPerS });
    expect(verdict(input, 'ISO 6892-1', /method A/, 'yield')?.verdict).toBe(expected);
  });

  it('E8/E8M methods B and C take strain rate and crosshead rate, each its own window', () => {
    // 0.015 ± 0.006 and 0.015 ± 0.003 per minute.
    const input = pull({ stressMpaPerS: 5, strainPerS: 0.0205 / 60, travelMmPerS: (60 * 0.0205) / 60 });
    expect(verdict(input, 'ASTM E8/E8M', /method B/, 'yield')?.verdict).toBe('within');
    expect(verdict(input, 'ASTM E8/E8M', /method C/, 'yield')?.verdict).toBe('outside');
  });

  it('uses the window of the stiffness measured: 2 to 20 MPa/s under 150 GPa', () => {
    const aluminium = { ...pull({ stressMpaPerS: 4 }), slopeMpa: 70_000 };
    const elastic = testingSpeed(aluminium).checks.filter(
      (c) => c.standard === 'ISO 6892-1' && c.stage === 'elastic',
    );
    expect(elastic.map((c) => c.verdict)).toEqual(['within']);
  });
});

describe("can't tell", () => {
  it('without time, without the channel, without the stage: each says which', () => {
    const { stages, stress } = pull({ stressMpaPerS: 10 });
    const untimed: SpeedInput = { stages, ...(stress === undefined ? {} : { stress }) };
    for (const c of testingSpeed(untimed).checks) {
      expect(c.verdict).toBe('not-known');
      expect(c.sentence).toMatch(/no time/);
    }
    const noExtensometer = verdict(pull({ stressMpaPerS: 10 }), 'ASTM E8/E8M', /method B/, 'yield');
    expect(noExtensometer?.sentence).toMatch(/no extensometer/);
    const noStage = verdict(
      { ...pull({ stressMpaPerS: 10 }), stages: {} },
      'ISO 6892-1',
      /method B/,
      'elastic',
    );
    expect(noStage?.sentence).toMatch(/elastic part can't be told/);
  });

  it('where all readings of the stage have the same time', () => {
    const input = pull({ stressMpaPerS: 10 });
    input.timeS?.fill(3);
    expect(testingSpeed(input).measured).toEqual([]);
  });
});
