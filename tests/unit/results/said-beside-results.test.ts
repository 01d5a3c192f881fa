/** What must be seen beside a value, or instead of it, when the record is coarse, brittle or from crosshead travel. */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../../core/curve/curve.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import type { Evaluation, EvaluationOptions } from '../../../core/results/evaluation.ts';
import { resolutionChecks } from '../../../core/results/instrument-resolution.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';
import { bilinear, rambergOsgood, record, voce, yieldPointLaw } from './synthetic-curve.ts';

function specimenOf(diameter = '10.00 mm'): Specimen {
  const outcome = readSpecimen({
    id: 'x',
    geometry: { kind: 'round', diameter },
    gaugeLength: '50 mm',
    parallelLength: '60 mm',
  });
  if (!outcome.ok) throw new Error('specimen');
  return outcome.specimen;
}

function withForce({ stressMpa, strainRatio, ...curve }: Curve): Curve {
  return {
    length: curve.length,
    forceN: (stressMpa ?? new Float64Array()).map((s) => s * 25 * Math.PI),
    extensionMm: (strainRatio ?? new Float64Array()).map((e) => e * 50),
  };
}

const run = (curve: Curve, options: EvaluationOptions = {}): Evaluation =>
  evaluate(withForce(curve), specimenOf(), options);
const of = ({ results }: Evaluation, symbol: string) => results.find((r) => r.symbol === symbol);
const saidOf = (evaluation: Evaluation, symbol: string): string =>
  of(evaluation, symbol)?.remarks?.join(' ') ?? '';

describe('readings far apart', () => {
  it('are said beside what is read off at the break and at the maximum', () => {
    const law = voce({ end: 0.2 });
    // Fine enough for an elastic line, then a reading every percent.
    const fine = record(law, { readings: 8_000 });
    const keep = Array.from({ length: fine.length }, (_, i) => i).filter(
      (i) => i < 400 || i % 400 === 0 || i > 7_999,
    );
    const coarse: Curve = {
      length: keep.length,
      stressMpa: Float64Array.from(keep, (i) => fine.stressMpa?.[i] ?? 0),
      strainRatio: Float64Array.from(keep, (i) => fine.strainRatio?.[i] ?? 0),
    };
    const evaluation = run(coarse);
    for (const symbol of ['At', 'A', 'Agt'])
      expect(saidOf(evaluation, symbol), symbol).toMatch(/extension apart/);
    for (const symbol of ['At', 'A', 'Agt']) expect(saidOf(run(fine), symbol), symbol).not.toMatch(/apart/);
  });

  it('are not blamed for a sharp fall that fine readings follow', () => {
    for (const noise of [0, 0.3, 3]) {
      const evaluation = run(
        record(yieldPointLaw(), { readings: 100_000, stressNoiseMpa: noise, strainNoise: 2e-6 }),
      );
      expect(of(evaluation, 'ReH')).toBeDefined();
      expect(saidOf(evaluation, 'ReH')).not.toContain('may be higher');
    }
  });
});

describe('the extension at a flat maximum', () => {
  it('is not said to reach back over an upper yield as high as the maximum', () => {
    const law = yieldPointLaw({ upper: 459, lower: 300 });
    const evaluation = run(record(law, { readings: 12_000 }));
    expect(of(evaluation, 'ReH')).toBeDefined();
    const from = /from ([\d.]+) % to/.exec(saidOf(evaluation, 'Agt'))?.[1];
    if (from !== undefined) expect(Number(from)).toBeGreaterThan(10);
  });
});

describe('Ae', () => {
  it('of a force that shows in coarse steps says that its end is blurred', () => {
    const evaluation = run(record(yieldPointLaw(), { readings: 20_000, stressStepMpa: 1, strainStep: 1e-4 }));
    expect(saidOf(evaluation, 'Ae')).toContain('steps of 1 MPa');
    expect(saidOf(run(record(yieldPointLaw(), { readings: 20_000 })), 'Ae')).toBe('');
  });
});

describe('a specimen that breaks in its elastic part', () => {
  it('has no plastic extension, and no dust of arithmetic for one', () => {
    const evaluation = run(record(bilinear({ end: 0.0019 }), { readings: 500 }));
    for (const symbol of ['Ag', 'A']) {
      const result = of(evaluation, symbol);
      if (result === undefined) continue;
      expect(result.value, symbol).toBe(0);
      expect(saidOf(evaluation, symbol)).toContain('No plastic extension is left');
    }
  });
});

describe('strain from crosshead travel', () => {
  it('gives A no name that says extensometer', () => {
    const made = withForce(record(voce({ end: 0.2 })));
    const evaluation = evaluate(
      {
        length: made.length,
        forceN: made.forceN ?? new Float64Array(),
        travelMm: made.extensionMm ?? new Float64Array(),
      },
      specimenOf(),
      { strainFrom: 'travel' },
    );
    const named = [...evaluation.results, ...evaluation.withheld].find((r) => r.symbol === 'A');
    expect(named?.name).toContain('crosshead travel');
    expect(of(evaluation, 'mE')?.uncertainty).toBeUndefined();
  });
});

describe('the uncertainty beside each value', () => {
  const evaluation = run(
    record(voce({ end: 0.2 }), { readings: 6_000, stressNoiseMpa: 0.3, strainNoise: 2e-6 }),
  );

  it('of the maximum force is that of its class: 1 % of ISO 7500-1, rectangular', () => {
    const force = of(evaluation, 'Fm');
    expect(force?.uncertainty?.standard).toBeCloseTo((0.01 * (force?.value ?? 0)) / Math.sqrt(3), 6);
  });

  it('of mE holds scatter, force, area, extension and gauge length; relative lines add in squares', () => {
    const slope = of(evaluation, 'mE');
    const sources = slope?.uncertainty?.budget.map((line) => line.source).join(' | ') ?? '';
    for (const word of ['scatter', 'ISO 7500-1', 'diameter', 'µm over the', 'gauge length Le'])
      expect(sources).toContain(word);
    const value = slope?.value ?? 0;
    // By arithmetic: classes 1 and a window of ΔR MPa over 50 mm of Le.
    const fit = evaluation.slope;
    const micrometres = (1000 * 50 * ((fit?.upperMpa ?? 0) - (fit?.lowerMpa ?? 0))) / value;
    const parts = [0.01 / Math.sqrt(3), Math.max(0.01, 3 / micrometres) / Math.sqrt(3), 0.01 / Math.sqrt(3)];
    const scatter = (fit?.standardUncertaintyMpa ?? 0) / value;
    const least = Math.hypot(...parts, scatter);
    const standard = (slope?.uncertainty?.standard ?? 0) / value;
    expect(standard).toBeGreaterThan(least);
    expect(standard).toBeLessThan(1.05 * least);
    expect(slope?.working.inputs.find((i) => i.symbol === 'u(mE)')?.name).toContain(
      'scatter of the fit alone',
    );
  });

  it('of Rt0.5 is there with its budget', () => {
    const total = of(evaluation, 'Rt0.5');
    expect(total?.uncertainty?.standard).toBeGreaterThan(0.005 * (total?.value ?? 0));
    expect(total?.uncertainty?.budget.some((line) => line.source.includes('foot of its line'))).toBe(true);
  });
});

describe('the check of the calliper', () => {
  it('speaks in the unit that was measured in', () => {
    const metric = resolutionChecks(specimenOf('12.5 mm'))
      .map((c) => c.sentence)
      .join(' ');
    expect(metric).toContain('0.02 mm');
    expect(metric).not.toMatch(/\d in\b/);
    const inches = resolutionChecks(specimenOf('0.500 in'))
      .map((c) => c.sentence)
      .join(' ');
    expect(inches).toContain('0.001 in');
    expect(inches).not.toContain(' mm');
  });
});

describe('a metal without a straight part', () => {
  it('has a proof strength that says what each half of the bent part would give', () => {
    const castIron = rambergOsgood({ E: 130_000, R: 260, n: 2.2, end: 0.0062 });
    for (const readings of [50, 200, 3_000]) {
      const evaluation = run(record(castIron, { readings }));
      expect(saidOf(evaluation, 'Rp0.2')).toContain('lower half');
    }
    expect(saidOf(run(record(voce({ end: 0.2 }))), 'Rp0.2')).toBe('');
  });
});

describe('a strength between two readings that have nothing to do with each other', () => {
  it('is withheld, not interpolated', () => {
    const law = rambergOsgood({ E: 195_000, R: 250, n: 5.5, end: 0.35 });
    const evaluation = run(record(law, { readings: 25 }));
    for (const symbol of ['Rp0.2', 'Rt0.5']) expect(of(evaluation, symbol), symbol).toBeUndefined();
    expect(evaluation.withheld.find((w) => w.symbol === 'Rt0.5')?.reason).toContain('too far apart to tell');
  });
});
