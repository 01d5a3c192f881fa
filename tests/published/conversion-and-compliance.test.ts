/** Elongation on other gauge lengths by ISO 2566, and travel without what the frame gave. */
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../core/results/evaluate.ts';
import { elongationOnOtherLength } from '../../core/results/elongation-conversion.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';

/**
 * Tables of factors between proportional gauge lengths in ISO 2566-1 (carbon and low alloy steels) and ISO 2566-2
 * (austenitic steels), k of L0 = k·√S0; the three digits are from memory, and agree with the closed form (k₁/k₂)^m,
 * m = 0.4 and 0.127.
 */
describe('factors between proportional gauge lengths', () => {
  it.each([
    ['carbon', 5.65, 4, 1.148],
    ['carbon', 5.65, 8.16, 0.863],
    ['carbon', 5.65, 11.3, 0.758],
    ['carbon', 11.3, 5.65, 1.32],
    ['austenitic', 5.65, 4, 1.045],
    ['austenitic', 5.65, 8.16, 0.954],
    ['austenitic', 5.65, 11.3, 0.916],
  ] as const)('%s steel from %d·√S0 to %d·√S0: %d', (kind, from, to, factor) => {
    const areaMm2 = 78.5;
    const on = (k: number) => ({ gaugeLengthMm: k * Math.sqrt(areaMm2), areaMm2 });
    const { value, unit } = elongationOnOtherLength({ percent: 20, from: on(from), to: on(to) }, kind);
    expect(unit).toBe('%');
    expect(Math.abs(value / 20 - factor)).toBeLessThan(6e-4);
  });
});

/** ISO 2566-1 in words (from memory): A on 200 mm of a flat of 25 mm × 10 mm from 25 % on 80 mm is 25·(80/200)^0.4 = 17.33 %. */
it('a fixed gauge length on the same section', () => {
  const specimen = readSpecimen({
    id: 'T-1',
    geometry: { kind: 'flat', width: '25 mm', thickness: '10 mm' },
    gaugeLength: '80 mm',
    finalGaugeLength: '100 mm',
  });
  if (!specimen.ok) throw new Error('specimen');
  const curve = { length: 3, forceN: Float64Array.of(0, 100_000, 0) };
  const { results } = evaluate(curve, specimen.specimen, {
    convertElongation: { gaugeLengthMm: 200, materialKind: 'carbon' },
  });
  expect(results.find((r) => r.symbol.startsWith('A200mm'))?.value).toBeCloseTo(17.33, 2);
});

/** Springs in series (any textbook of mechanics; closed form): travel = F·(1/k + Lc/(E·S0)), k of frame and grips. */
describe('frame compliance', () => {
  const E = 205_000;
  const areaMm2 = 25 * Math.PI;
  const travelOf = (forceN: number, stiffness: number): number =>
    forceN / stiffness + (forceN * 60) / (E * areaMm2);
  const specimen = readSpecimen({
    id: 'T-1',
    geometry: { kind: 'round', diameter: '10 mm' },
    parallelLength: '60 mm',
  });
  if (!specimen.ok) throw new Error('specimen');
  const forceN = Float64Array.from({ length: 400 }, (_, i) => 75 * i);

  it.each([20_000, 50_000, 120_000])('of %d N/mm taken off leaves the slope of the specimen', (stiffness) => {
    const curve = { length: forceN.length, forceN, travelMm: forceN.map((f) => travelOf(f, stiffness)) };
    const slope = (corrections: object): number | undefined =>
      evaluate(curve, specimen.specimen, { strainFrom: 'travel', corrections }).slope?.slopeMpa;
    const frameCompliance = [0, 10_000, 40_000].map((f) => ({ forceN: f, travelMm: f / stiffness }));
    expect((slope({ frameCompliance }) ?? 0) / E).toBeCloseTo(1, 6);
    // Left in, frame and specimen give together: 1/E' = 1/E + S0/(k·Lc).
    expect((slope({}) ?? 0) * (1 / E + areaMm2 / (stiffness * 60))).toBeCloseTo(1, 6);
  });
});
