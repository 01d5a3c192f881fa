import { createHash } from 'node:crypto';
import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { plasticLaw } from '../../../drivers/simulated-frame/plastic-law.ts';
import { pullPath } from '../../../drivers/simulated-frame/pull-path.ts';
import { normalRandom } from '../../../drivers/simulated-frame/random.ts';
import { type Scenario, scenario } from '../../../drivers/simulated-frame/scenario.ts';
import {
  shippedScenarios,
  profileOfScenario,
  shippedScenario,
} from '../../../drivers/simulated-frame/scenarios.ts';
import { SimulatedFrame } from '../../../drivers/simulated-frame/simulated-frame.ts';
import { trueValues } from '../../../drivers/simulated-frame/truth.ts';
import { parseAll } from './profile-of.ts';

const named = (name: string): Scenario => {
  const found = shippedScenario(name);
  if (found === null) throw new Error(name);
  return found;
};

/** What a recorder would have: columns by field, NaN where there is no value. */
function pulled(of: Scenario, seed = of.seed): Map<string, number[]> {
  const profile = profileOfScenario(of);
  const text = [...new SimulatedFrame(of, { profile, seed }).lines()]
    .map((line) => line.bytes.toString('latin1'))
    .join('');
  const columns = new Map<string, number[]>(profile.channels.map((channel) => [channel.field, []]));
  for (const { outcome } of parseAll(profile, text)) {
    if (outcome.kind !== 'reading') throw new Error(outcome.sentence);
    outcome.reading.channels.forEach((channel, index) => {
      const name = profile.channels[index]?.field ?? '';
      columns
        .get(name)
        ?.push(channel.mantissa === null ? Number.NaN : channel.mantissa * 10 ** channel.exponent);
    });
  }
  return columns;
}

describe('the laws of the material against their closed forms', () => {
  it('Swift: the largest load lies where Considère’s construction puts it', () => {
    const law = plasticLaw({
      kind: 'yield-point',
      upperYieldMpa: 320,
      lowerYieldMpa: 300,
      plateauStrain: 0.015,
      strengthCoefficientMpa: 750,
      hardeningExponent: 0.2,
    });
    const around = [-1e-4, 0, 1e-4].map((step) => law.stressMpa(law.uniformPlasticStrain + step));
    expect(around[1]).toBeGreaterThan(around[0] ?? 0);
    expect(around[1]).toBeGreaterThan(around[2] ?? 0);
    expect(around[1]).toBeCloseTo(law.largestStressMpa, 9);
    // Hardening begins at the end of the plateau without a step.
    expect(law.stressMpa(0.015 + 1e-9)).toBeCloseTo(300, 4);
    expect(law.stressMpa(0)).toBe(320);
  });

  it('Voce: the largest load lies where dσ/dε = σ', () => {
    const law = plasticLaw({ kind: 'continuous', yieldMpa: 250, hardeningMpa: 150, hardeningRate: 20 });
    const trueStrain = Math.log1p(law.uniformPlasticStrain);
    const trueStress = 250 + 150 * (1 - Math.exp(-20 * trueStrain));
    expect(150 * 20 * Math.exp(-20 * trueStrain)).toBeCloseTo(trueStress, 9);
    expect(law.largestStressMpa).toBeCloseTo(trueStress * Math.exp(-trueStrain), 9);
  });

  it('refuses constants that make no pull', () => {
    expect(() =>
      plasticLaw({ kind: 'continuous', yieldMpa: 500, hardeningMpa: 10, hardeningRate: 5 }),
    ).toThrow(RangeError);
  });
});

describe.each(shippedScenarios().map((of) => [of.name, of] as const))('the scenario %s', (_name, of) => {
  it('gives back, out of its noisy lines, the values that it was made from', () => {
    const columns = pulled(of);
    const truth = trueValues(of);
    const us = of.profile.includes('US');
    // 1 lbf = 4.448 221 615 260 5 N and 1 in = 25.4 mm (NIST SP 811, Appendix B).
    const forceN = (columns.get('load') ?? []).map((load) => load * (us ? 4.4482216152605 : 1));
    const extensionMm = (columns.get('extension') ?? []).map((extension) => extension * (us ? 25.4 : 1));
    const noise = of.loadCell.noiseN * 5 + Math.abs(of.loadCell.zeroOffsetN) + (us ? 9 : 1);
    // Between two readings the load falls at most by what the neck gives way.
    const largest = Math.max(...forceN.filter((force) => !Number.isNaN(force)));
    expect(Math.abs(largest - truth.largestForceN)).toBeLessThan(noise + truth.largestForceN * 0.002);

    const gaugeMm = of.extensometer?.gaugeLengthMm ?? 1;
    const peak = forceN.indexOf(largest);
    const line: [number, number][] = [];
    const firstYieldN = pullPath(of).law.firstYieldMpa * truth.areaMm2;
    for (let index = 0; index < peak; index++) {
      const force = forceN[index] ?? 0;
      const extension = extensionMm[index] ?? Number.NaN;
      if (force > firstYieldN * 0.15 && force < firstYieldN * 0.8 && extension < gaugeMm * 0.004)
        line.push([extension / gaugeMm, force / truth.areaMm2]);
    }
    expect(line.length).toBeGreaterThan(100);
    // In the weld the softened zone has begun to strain by then; elsewhere the line is elastic.
    if (of.zones.length === 1)
      expect(Math.abs(linearRegression(line).m / truth.elasticModulusMpa - 1)).toBeLessThan(0.01);
  });

  it('is the same to the byte for the same seed, and another for another', () => {
    const digest = (seed: number): string => {
      const hash = createHash('sha256');
      for (const line of new SimulatedFrame(of, { profile: profileOfScenario(of), seed }).lines())
        hash.update(line.bytes);
      return hash.digest('hex');
    };
    expect(digest(of.seed)).toBe(digest(of.seed));
    expect(digest(of.seed)).not.toBe(digest(of.seed + 1));
  });

  it('begins at rest and ends without load', () => {
    const load = pulled(of).get('load') ?? [];
    const noise = of.loadCell.noiseN * 6 + Math.abs(of.loadCell.zeroOffsetN) + 2;
    expect(Math.max(...load.slice(0, 40).map(Math.abs))).toBeLessThan(noise);
    expect(Math.max(...load.slice(-40).map(Math.abs))).toBeLessThan(noise);
  });
});

describe('specimen, grips and frame in series', () => {
  it('share one force, and their displacements add up on the elastic line', () => {
    const of = named('mild-steel-yield-point');
    const stiff = { ...of, frame: { ...of.frame, slackMm: 0, gripTakeUpMm: 0 } };
    const { points, areaMm2 } = pullPath(stiff);
    const point = points[200];
    // Springs in series: 1/k = 1/k_frame + L/(E·A).
    const compliance = 1 / stiff.frame.stiffnessNPerMm + 60 / (206000 * areaMm2);
    expect(point?.travelMm).toBeCloseTo((point?.forceN ?? 0) * compliance, 9);
  });

  it('shows the upper yield point, the plateau and its length', () => {
    const of = named('mild-steel-yield-point');
    const { points, areaMm2 } = pullPath(of);
    const yieldIndex =
      points.findIndex((point, index) => index > 0 && point.forceN < (points[index - 1]?.forceN ?? 0)) - 1;
    expect((points[yieldIndex]?.forceN ?? 0) / areaMm2).toBeCloseTo(318, 9);
    const plateau = points.filter(
      (point) => point.extensionMm > 0.005 * 50 && point.extensionMm < 0.016 * 50,
    );
    for (const point of plateau) expect(point.forceN / areaMm2).toBeCloseTo(296, 1);
  });

  it('elongates by uniform strain and neck, and the neck counts only inside the gauge length', () => {
    const of = named('quenched-steel');
    const inside = trueValues(of);
    const uniform = pullPath(of).law.uniformPlasticStrain;
    expect(inside.elongationAfterFracture).toBeCloseTo(uniform + 4.9 / 50, 9);
    const outside = trueValues(
      scenario.parse({ ...of, fracture: { positionMm: 30 }, neck: { ...of.neck, widthMm: 6 } }),
    );
    expect(outside.elongationAfterFracture).toBeCloseTo(uniform, 9);
    expect(outside.fractureInGauge).toBe(false);
  });

  it('strains the softened zone of the weld and leaves the plate nearly elastic', () => {
    const of = named('aluminium-weld');
    const truth = trueValues(of);
    const soft = plasticLaw(
      of.zones[1]?.plasticity ??
        (() => {
          throw new Error('zone');
        })(),
    );
    expect(truth.tensileStrengthMpa).toBeCloseTo(soft.largestStressMpa, 6);
    expect(truth.tensileStrengthMpa).toBeLessThan(
      plasticLaw(
        of.zones[0]?.plasticity ??
          (() => {
            throw new Error('zone');
          })(),
      ).firstYieldMpa,
    );
  });

  it('breaks at the defect before it necks', () => {
    const of = named('brittle-weld-defect');
    expect(trueValues(of).tensileStrengthMpa).toBeCloseTo(389, 9);
    const load = pulled(of).get('load') ?? [];
    const peak = load.indexOf(Math.max(...load));
    expect(Math.abs(load[peak + 2] ?? Number.NaN)).toBeLessThan(60);
  });

  it('jumps over the part of a fall that the elastic frame is too soft to follow', () => {
    const of = named('mild-steel-yield-point');
    const soft: Scenario = {
      ...of,
      frame: { ...of.frame, stiffnessNPerMm: 900 },
      drive: { ...of.drive, steps: [{ speedMmPerMin: 60 }] },
    };
    const load = pulled(soft).get('load') ?? [];
    expect(load.at(-1)).toBeLessThan(100);
    // The break comes while the load is still far above what a stiff frame would have reached.
    const { points } = pullPath(soft);
    const turnsBack = points.some(
      (point, index) => index > 0 && point.travelMm < (points[index - 1]?.travelMm ?? 0),
    );
    expect(turnsBack).toBe(true);
  });
});

describe('instruments', () => {
  it('show dashes once the extensometer is off, and overload beyond the load cell’s range', () => {
    const of = named('weld-strap-us');
    const extension = pulled(of).get('extension') ?? [];
    const off = extension.findIndex((value) => Number.isNaN(value));
    expect(off).toBeGreaterThan(100);
    expect(extension.slice(off).every((value) => Number.isNaN(value))).toBe(true);
    const weak = { ...of, loadCell: { ...of.loadCell, capacityN: 40_000 } };
    const load = pulled(weak).get('load') ?? [];
    expect(load.some((value) => Number.isNaN(value))).toBe(true);
    expect(Math.max(...load.filter((value) => !Number.isNaN(value)))).toBeLessThanOrEqual(40_000 / 4.448 + 1);
  });

  it('have noise of mean 0 and deviation 1', () => {
    const noise = normalRandom(11);
    const drawn = Array.from({ length: 20_000 }, noise);
    const mean = drawn.reduce((sum, value) => sum + value, 0) / drawn.length;
    const variance = drawn.reduce((sum, value) => sum + (value - mean) ** 2, 0) / drawn.length;
    // Four standard errors.
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(20_000));
    expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / 20_000));
  });
});

describe('a scenario file', () => {
  const of = named('aluminium-weld');

  it.each<[string, object]>([
    ['zones that do not add up', { parallelLengthMm: 71 }],
    ['a fracture outside the specimen', { fracture: { positionMm: 99 } }],
    ['an unknown field', { extra: 1 }],
    ['a specimen without dimensions', { specimen: { id: 'x' } }],
    ['a resolution of zero', { resolution: { load: '0' } }],
    ['a last step with an end', { drive: { ...of.drive, steps: [{ speedMmPerMin: 5, untilTravelMm: 1 }] } }],
  ])('with %s is refused', (_name, change) => {
    expect(scenario.safeParse({ ...of, ...change }).success).toBe(false);
  });
});
