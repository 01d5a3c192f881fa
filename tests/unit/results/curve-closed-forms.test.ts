/** Results from the whole curve against closed forms: energy, n and K, plateau at the maximum, true values, Rmax; and what noise and toe are said to do. */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../../core/curve/curve.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { bilinear, record, voce, yieldPointLaw } from './synthetic-curve.ts';

const AREA = 25 * Math.PI;
const LENGTH = 50;

const specimen = (() => {
  const outcome = readSpecimen({
    id: 'T-1',
    geometry: { kind: 'round', diameter: '10 mm' },
    gaugeLength: '50 mm',
  });
  if (!outcome.ok) throw new Error('specimen');
  return outcome.specimen;
})();

const resultOf = ({ results }: Evaluation, symbol: string) => results.find((r) => r.symbol === symbol);
const valueOf = (evaluation: Evaluation, symbol: string): number =>
  resultOf(evaluation, symbol)?.value ?? Number.NaN;

/** Straight lines between corners (strain, MPa), as force and extension, and a fall to zero at the end. */
function broken(corners: readonly (readonly [number, number])[], perLine = 500): Curve {
  const strain: number[] = [];
  const stress: number[] = [];
  corners.slice(1).forEach(([e1, s1], k) => {
    const [e0, s0] = corners[k] ?? [0, 0];
    for (let i = k === 0 ? 0 : 1; i <= perLine; i++) {
      const part = i / perLine;
      strain.push(e0 + (e1 - e0) * part);
      stress.push(s0 === s1 ? s0 : s0 + (s1 - s0) * part);
    }
  });
  for (let k = 0; k < 5; k++) {
    strain.push(strain.at(-1) ?? 0);
    stress.push(0);
  }
  return {
    length: strain.length,
    timeS: Float64Array.from(strain, (_, i) => i / 10),
    forceN: Float64Array.from(stress, (s) => s * AREA),
    extensionMm: Float64Array.from(strain, (e) => e * LENGTH),
  };
}

describe('energy', () => {
  /** The small triangle below the start of the loading (about 1 % of the force), from which the area counts. */
  const beforeStart = ({ marks }: Evaluation, perLine = 500): number =>
    ((marks.loadingStart ?? 0) / perLine) ** 2 * ((400 * 0.002) / 2);

  it('of a triangle is half the force times the extension', () => {
    const evaluation = evaluate(
      broken([
        [0, 0],
        [0.002, 400],
      ]),
      specimen,
    );
    const joules = ((400 * 0.002) / 2 - beforeStart(evaluation)) * ((AREA * LENGTH) / 1000);
    expect(valueOf(evaluation, 'Wm')).toBeCloseTo(joules, 9);
    expect(resultOf(evaluation, 'Wm')?.unit).toBe('J');
  });

  it('of triangle, trapezoid and trapezoid is their sum, to the maximum without the last', () => {
    const evaluation = evaluate(
      broken([
        [0, 0],
        [0.002, 400],
        [0.1, 500],
        [0.13, 420],
      ]),
      specimen,
    );
    const toMaximum = (400 * 0.002) / 2 - beforeStart(evaluation) + 450 * 0.098;
    const perVolume = (AREA * LENGTH) / 1000;
    expect(valueOf(evaluation, 'Wm')).toBeCloseTo(toMaximum * perVolume, 8);
    expect(valueOf(evaluation, 'Wt')).toBeCloseTo((toMaximum + 460 * 0.03) * perVolume, 8);
  });

  // 1 N/mm² times a strain of 1 is 1 MJ/m³, whatever the area.
  it('of a record of force and strain is that of stress and strain: per volume, divided by the area', () => {
    const { extensionMm, ...rest } = broken([
      [0, 0],
      [0.002, 400],
      [0.1, 500],
      [0.13, 420],
    ]);
    const evaluation = evaluate(
      { ...rest, strainRatio: Float64Array.from(extensionMm ?? [], (mm) => mm / LENGTH) },
      specimen,
    );
    const toMaximum = (400 * 0.002) / 2 - beforeStart(evaluation) + 450 * 0.098;
    expect(resultOf(evaluation, 'Wm')?.unit).toBe('MJ/m³');
    expect(valueOf(evaluation, 'Wm')).toBeCloseTo(toMaximum, 8);
    expect(valueOf(evaluation, 'Wt')).toBeCloseTo(toMaximum + 460 * 0.03, 8);
  });
});

describe('a noisy record that stops unbroken just before its maximum', () => {
  // Considère: the Voce law S = 500, Q = 250, b = 18 has its maximum at a true plastic strain of 0.1025.
  it('never gives a strength without saying that a larger force may have followed', () => {
    for (const end of [0.08, 0.09, 0.1])
      for (let seed = 1; seed <= 12; seed++) {
        const curve = record(voce({ end }), { stressNoiseMpa: 2, breaks: false, seed });
        const rm = resultOf(evaluate(curve, specimen), 'Rm');
        if (rm !== undefined) expect(rm.remarks?.join(' ')).toContain('a larger force may have followed');
      }
  });

  it('says nothing of it where the force has clearly fallen since', () => {
    const curve = record(voce(), { stressNoiseMpa: 2, breaks: false });
    expect(resultOf(evaluate(curve, specimen), 'Rm')?.remarks?.join(' ') ?? '').not.toContain('followed');
  });
});

describe('a plateau at the maximum force', () => {
  const evaluation = evaluate(
    broken([
      [0, 0],
      [0.002, 400],
      [0.05, 500],
      [0.09, 500],
      [0.12, 420],
    ]),
    specimen,
  );

  it('counts by its mid-point: Agt, and Ag less the elastic part', () => {
    expect(valueOf(evaluation, 'Agt')).toBeCloseTo(7, 6);
    expect(valueOf(evaluation, 'Ag')).toBeCloseTo(7 - (100 * 500) / 200_000, 6);
  });

  it('gives true stress and strain there', () => {
    expect(valueOf(evaluation, 'σm')).toBeCloseTo(500 * 1.07, 5);
    expect(valueOf(evaluation, 'εm')).toBeCloseTo(Math.log(1.07), 8);
  });
});

describe('n and K', () => {
  it('of σ = K·εⁿ in true plastic strain are n and K', () => {
    const [E, K, n] = [200_000, 800, 0.2];
    const yieldMpa = K * 0.002 ** n;
    const strain: number[] = [];
    const stress: number[] = [];
    const push = (trueMpa: number, plastic: number): void => {
      const e = Math.expm1(plastic + trueMpa / E);
      strain.push(e);
      stress.push(trueMpa / (1 + e));
    };
    for (let i = 0; i < 400; i++) push((yieldMpa * i) / 400, 0);
    for (let i = 0; i <= 6_000; i++) {
      const plastic = (0.24 * i) / 6_000;
      push(K * Math.max(plastic, 0.002) ** n, plastic);
    }
    for (let i = 0; i < 5; i++) {
      strain.push(strain.at(-1) ?? 0);
      stress.push(0);
    }
    const curve: Curve = {
      length: stress.length,
      stressMpa: Float64Array.from(stress),
      strainRatio: Float64Array.from(strain),
    };
    const evaluation = evaluate(curve, null, { hardeningRangePercent: { from: 3, to: 15 } });
    expect(Math.abs(valueOf(evaluation, 'n') - n)).toBeLessThan(0.001);
    expect(Math.abs(valueOf(evaluation, 'K') / K - 1)).toBeLessThan(0.003);
  });
});

describe('the absolute maximum beside the maximum after yielding', () => {
  it('is rounded by the same rule as Rm, and the force by none', () => {
    const law = yieldPointLaw({ upper: 520, lower: 300 });
    const { stressMpa, strainRatio, length } = record(law, { readings: 30_000 });
    if (stressMpa === undefined || strainRatio === undefined) throw new Error('no columns');
    const evaluation = evaluate(
      { length, forceN: stressMpa.map((s) => s * AREA), extensionMm: strainRatio.map((e) => e * LENGTH) },
      specimen,
      { rounding: 'iso-6892-1' },
    );
    const absolute = Math.max(...stressMpa);
    expect(valueOf(evaluation, 'Rm')).toBeCloseTo(law.known.strengthMpa ?? 0, 1);
    expect(valueOf(evaluation, 'Rmax')).toBeCloseTo(absolute, 9);
    expect(resultOf(evaluation, 'Rmax')?.rounded[0]?.text).toBe(absolute.toFixed(0));
    expect(resultOf(evaluation, 'Fmax')?.value).toBeCloseTo(absolute * AREA, 6);
  });
});

describe('noise at the maximum', () => {
  it('is told with about how much it lifts the value, which stays the largest reading', () => {
    const curve = record(voce(), { stressNoiseMpa: 3 });
    const evaluation = evaluate(curve, null);
    const rm = resultOf(evaluation, 'Rm');
    expect(rm?.value).toBe(Math.max(...(curve.stressMpa ?? [])));
    const said = /high by about ([\d.]+) MPa/.exec(rm?.remarks?.join(' ') ?? '');
    // Over sixty seeded courses the lift of this law and noise is 9.08 ± 1.19 MPa (tests/bench/accuracy.ts).
    expect(Math.abs(Number(said?.[1]) - 9.08)).toBeLessThan(2);
  });

  it('is not spoken of in a quiet record', () => {
    const rm = resultOf(evaluate(record(voce(), { stressNoiseMpa: 0.1 }), null), 'Rm');
    expect(rm?.remarks?.join(' ') ?? '').not.toContain('Noise');
  });
});

describe('a toe that reaches over the elastic part', () => {
  it('makes the slope unfit for a modulus, and is named as the cause', () => {
    const evaluation = evaluate(record(bilinear(), { toeStrain: 0.002, toeStressMpa: 120 }), null);
    expect(evaluation.slope?.notAModulus).toMatch(/^Not fit for a modulus of elasticity: the toe/);
  });

  it('a short toe is not', () => {
    const evaluation = evaluate(record(bilinear(), { toeStrain: 0.0002, toeStressMpa: 5 }), null);
    expect(evaluation.slope?.notAModulus ?? '').not.toContain('the toe');
  });
});
