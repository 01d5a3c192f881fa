/** What a simulated pull really was: for tests, and for nobody else. */
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { pullPath } from './pull-path.ts';
import type { Scenario } from './scenario.ts';

export interface TrueValues {
  readonly areaMm2: number;
  /** Fm and Rm. */
  readonly largestForceN: number;
  readonly tensileStrengthMpa: number;
  /** E of the zone in the middle. */
  readonly elasticModulusMpa: number;
  /** ReH and ReL; null where it yields continuously or breaks before. */
  readonly upperYieldMpa: number | null;
  readonly lowerYieldMpa: number | null;
  /** Rp0.2 over the extensometer's gauge length; null with a yield point, without extensometer, or broken before. */
  readonly proofStrengthMpa: number | null;
  /** A over the specimen's gauge length (or the extensometer's where it has none), as a ratio. */
  readonly elongationAfterFracture: number;
  /** Whether the fracture lies between the extensometer's feet. */
  readonly fractureInGauge: boolean;
}

export function trueValues(scenario: Scenario): TrueValues {
  const path = pullPath(scenario);
  const { areaMm2, law, points } = path;
  const middle = zoneInTheMiddle(scenario);
  const specimen = readSpecimen(scenario.specimen);
  const extensometerMm = scenario.extensometer?.gaugeLengthMm;
  const gaugeMm =
    (specimen.ok ? specimen.specimen.gaugeLength?.mean : undefined) ??
    extensometerMm ??
    scenario.parallelLengthMm;
  const yields = points.some((point) => point.forceN >= law.firstYieldMpa * areaMm2 * (1 - 1e-9));
  const hasYieldPoint = law.lowerYieldMpa !== null;

  let proofStrengthMpa: number | null = null;
  if (!hasYieldPoint && extensometerMm !== undefined) {
    const line = points.find(
      (point) =>
        point.extensionMm / extensometerMm - point.forceN / areaMm2 / middle.elasticModulusMpa >= 0.002,
    );
    proofStrengthMpa = line === undefined ? null : line.forceN / areaMm2;
  }
  return {
    areaMm2,
    largestForceN: path.largestForceN,
    tensileStrengthMpa: path.largestForceN / areaMm2,
    elasticModulusMpa: middle.elasticModulusMpa,
    upperYieldMpa: hasYieldPoint && yields ? law.firstYieldMpa : null,
    lowerYieldMpa: hasYieldPoint && yields ? law.lowerYieldMpa : null,
    proofStrengthMpa,
    elongationAfterFracture: path.plasticElongationMm(gaugeMm) / gaugeMm,
    fractureInGauge: Math.abs(scenario.fracture.positionMm) < (extensometerMm ?? gaugeMm) / 2,
  };
}

function zoneInTheMiddle(scenario: Scenario): Scenario['zones'][number] {
  let end = -scenario.parallelLengthMm / 2;
  for (const zone of scenario.zones) {
    end += zone.lengthMm;
    if (end >= 0) return zone;
  }
  throw new RangeError('a scenario has zones');
}
