import { sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { area } from '../../../core/results/area.ts';
import { areaLines, areaUncertainty } from '../../../core/results/area-uncertainty.ts';
import { coverageFactor } from '../../../core/results/coverage-factor.ts';
import { typedResolution } from '../../../core/results/dimension-uncertainty.ts';
import { elongationUncertainty, reductionUncertainty } from '../../../core/results/ductility-uncertainty.ts';
import { proofUncertainty, strengthUncertainty } from '../../../core/results/strength-uncertainty.ts';
import { combinedUncertainty } from '../../../core/results/uncertainty.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';
import { seededRandom } from './seeded-random.ts';

/** Trials of a Monte Carlo run; the standard deviation of 40 000 draws is itself known to 0.35 %. */
const TRIALS = 40_000;
const AGREEMENT = 0.02;

function specimen(file: object): Specimen {
  const outcome = readSpecimen({ id: 'U', ...file });
  if (!outcome.ok) throw new Error(outcome.faults[0]?.sentence);
  return outcome.specimen;
}

/** Spread of a model under drawn inputs (GUM Supplement 1, JCGM 101:2008). */
function spreadOf(model: (draw: ReturnType<typeof seededRandom>) => number, seed: number): number {
  const draw = seededRandom(seed);
  return sampleStandardDeviation(Array.from({ length: TRIALS }, () => model(draw)));
}

const round = specimen({
  geometry: { kind: 'round', diameter: '12.50 mm' },
  gaugeLength: '62.5 mm',
  finalGaugeLength: '78.25 mm',
  finalDiameter: '7.30 mm',
  instrumentResolution: '0.01 mm',
  instrumentUncertainty: '0.02 mm',
});
const flat = specimen({
  geometry: { kind: 'flat', width: '20.00 mm', thickness: '3.00 mm' },
  instrumentResolution: '0.02 mm',
  instrumentUncertainty: '0.04 mm',
});

describe('against a Monte Carlo run (GUM Supplement 1)', () => {
  it('S0 of a flat specimen, one calliper for both dimensions', () => {
    const law = areaUncertainty(flat)?.standard ?? 0;
    const drawn = spreadOf(({ within, normal }) => {
      const calliper = normal(0, 0.02);
      return (20 + within(0.01) + calliper) * (3 + within(0.01) + calliper);
    }, 1);
    expect(Math.abs(law / drawn - 1)).toBeLessThan(AGREEMENT);
  });

  it('Rm of a round specimen, class 1 machine', () => {
    const s0 = (Math.PI / 4) * 12.5 ** 2;
    const law = strengthUncertainty({
      stressMpa: 500,
      areaMm2: s0,
      areaLines: areaLines(round) ?? [],
      systems: { readoutClass: '1', readoutResolutionN: 10 },
    }).standard;
    const drawn = spreadOf(({ within, normal }) => {
      const d = 12.5 + within(0.005) + normal(0, 0.01);
      return (500 * s0 * (1 + within(0.01)) + within(5)) / ((Math.PI / 4) * d ** 2);
    }, 2);
    expect(Math.abs(law / drawn - 1)).toBeLessThan(AGREEMENT);
  });

  it('A, where the calliper error of both lengths is the same error', () => {
    const law = elongationUncertainty(round)?.standard ?? 0;
    const drawn = spreadOf(({ within, normal }) => {
      const calliper = normal(0, 0.01);
      const l0 = 62.5 + within(0.005) + calliper;
      return (100 * (78.25 + within(0.005) + calliper - l0)) / l0;
    }, 3);
    expect(Math.abs(law / drawn - 1)).toBeLessThan(AGREEMENT);
  });

  it('Z of a round specimen', () => {
    const before = (Math.PI / 4) * 12.5 ** 2;
    const after = (Math.PI / 4) * 7.3 ** 2;
    const law = reductionUncertainty(round, { originalMm2: before, finalMm2: after })?.standard ?? 0;
    const drawn = spreadOf(({ within, normal }) => {
      const calliper = normal(0, 0.01);
      const d0 = 12.5 + within(0.005) + calliper;
      const du = 7.3 + within(0.005) + calliper;
      return 100 * (1 - du ** 2 / d0 ** 2);
    }, 4);
    expect(Math.abs(law / drawn - 1)).toBeLessThan(AGREEMENT);
  });

  it('a proof strength, where slope, strain scale, force and section all move the crossing', () => {
    // Straight lines: elastic 200 GPa through (0.001, 200 MPa), hardening 400 + 5000·(e − 0.004).
    const s0 = (Math.PI / 4) * 12.5 ** 2;
    const crossing = (m: number, scale: number): number => {
      const h = 5_000 / scale;
      const at = 0.004 * scale;
      // R = 200 + m·(e − 0.001 − 0.002) on the measured strain axis, R = 400 + h·(e − at).
      const e = (400 - h * at - 200 + m * (0.001 * scale + 0.002)) / (m - h);
      return 400 + h * (e - at);
    };
    const stress = crossing(200_000, 1);
    const law = proofUncertainty({
      stressMpa: stress,
      areaMm2: s0,
      areaLines: areaLines(round) ?? [],
      systems: { readoutClass: '0.5', extensometerClass: '2' },
      slopeMpa: 200_000,
      slopeStandardMpa: 8_000,
      slopeReadings: 200,
      fitMeanStressMpa: 200,
      tangentMpa: 5_000,
      offsetRatio: 0.002,
    });
    const drawn = spreadOf(({ within, normal }) => {
      const scale = 1 + within(0.02);
      const value = crossing(normal(200_000, 8_000) / scale, scale);
      const d = 12.5 + within(0.005) + normal(0, 0.01);
      return (value * (1 + within(0.005)) * 12.5 ** 2) / d ** 2;
    }, 5);
    expect(Math.abs(law.standard / drawn - 1)).toBeLessThan(AGREEMENT);
    const slopeLine = law.budget.find((line) => line.source.startsWith('slope'));
    expect(slopeLine?.contribution).toBeGreaterThan(0);
  });
});

describe('degrees of freedom', () => {
  it('few repeated measurements widen the coverage factor (GUM Table G.2)', () => {
    const few = specimen({ geometry: { kind: 'round', diameter: ['12.4 mm', '12.5 mm', '12.6 mm'] } });
    const result = areaUncertainty(few);
    expect(result?.degreesOfFreedom).toBeGreaterThan(2);
    expect(result?.coverageFactor).toBeGreaterThan(2);
    expect(result?.expanded).toBeCloseTo((result?.coverageFactor ?? 0) * (result?.standard ?? 0), 12);
  });

  it('are infinite where every line is a limit or a certificate: k = 2', () => {
    const result = areaUncertainty(round);
    expect(result?.coverageFactor).toBe(2);
    expect(result?.degreesOfFreedom).toBeUndefined();
  });

  it('Welch–Satterthwaite of two equal lines of 4 and 4 is 8 (GUM G.4.1, by arithmetic)', () => {
    const line = {
      source: '',
      standard: 1,
      unit: 'mm',
      sensitivity: 1,
      distribution: 'normal',
      degreesOfFreedom: 4,
    } as const;
    const result = combinedUncertainty([line, line]);
    expect(result.degreesOfFreedom).toBeCloseTo(8, 12);
    expect(result.coverageFactor).toBe(2.37);
  });

  it('gives the factor of the next lower whole number', () => {
    expect(coverageFactor(1)).toBe(13.97);
    expect(coverageFactor(9.9)).toBe(2.32);
    expect(coverageFactor(33)).toBe(2.08);
    expect(coverageFactor(33.9)).toBe(2.08);
    expect(coverageFactor(undefined)).toBe(2);
  });
});

describe('the budget', () => {
  it('names what it assumed', () => {
    const s0 = area(round.geometry);
    if (!s0.ok) throw new Error('no area');
    const { budget, standard } = strengthUncertainty({
      stressMpa: 500,
      areaMm2: s0.area.areaMm2,
      areaLines: areaLines(round) ?? [],
      systems: {},
    });
    expect(budget[0]?.source).toMatch(/class 1 .*assumed/);
    const root = Math.sqrt(budget.reduce((sum, line) => sum + line.contribution ** 2, 0));
    expect(standard).toBeCloseTo(root, 12);
    for (const line of budget)
      expect(line.contribution).toBeCloseTo(Math.abs(line.sensitivity * line.standard), 12);
  });

  it('says where one error of the calliper moves several lengths, because that makes Z and A more certain', () => {
    const calliper = (specimenOf: Specimen): string | undefined =>
      areaUncertainty(specimenOf)?.budget.find(({ source }) => source.startsWith('measuring instrument'))
        ?.source;
    expect(calliper(flat)).toMatch(/the same error in every length/);
    expect(calliper(round)).not.toMatch(/the same error/);
    const z = reductionUncertainty(round, { originalMm2: 122.7, finalMm2: 41.9 });
    expect(z?.budget.at(-1)?.source).toMatch(/the same error in every length/);
  });

  it('reads the step of the display from the digits that were typed', () => {
    const step = (...texts: string[]) => {
      const s = specimen({ geometry: { kind: 'round', diameter: texts } });
      return s.geometry.kind === 'round' ? typedResolution(s.geometry.diameter) : null;
    };
    expect(step('12.50 mm')).toBeCloseTo(0.01, 15);
    expect(step('12.50 mm', '12.5 mm')).toBeCloseTo(0.1, 15);
    expect(step('0.5005 in')).toBeCloseTo(0.00254, 15);
    expect(step('12,5 mm')).toBeCloseTo(0.1, 15);
    expect(step('1-1/2 in')).toBeNull();
  });
});
