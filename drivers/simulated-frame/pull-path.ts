/**
 * The path of a pull: load and extension as functions of crosshead travel, worked out once as a dense polyline.
 *
 * Specimen zones, grips and frame are in series: one force, displacements that add up. The path is followed by the
 * plastic strain of the zone that governs (the one that gives the least load), then by the elongation of the neck.
 */
import { type PlasticLaw, plasticLaw } from './plastic-law.ts';
import { type Scenario, sectionAreaMm2 } from './scenario.ts';

export interface PathPoint {
  /** Crosshead travel since it started. */
  readonly travelMm: number;
  readonly forceN: number;
  /** Between the feet of an extensometer that stays on; 0 where none is used. */
  readonly extensionMm: number;
}

export interface PullPath {
  readonly points: readonly PathPoint[];
  readonly areaMm2: number;
  readonly law: PlasticLaw;
  readonly largestForceN: number;
  /** Travel at the break. */
  readonly breakTravelMm: number;
  /** Plastic elongation of a gauge length in the middle of the specimen, neck included. */
  readonly plasticElongationMm: (gaugeLengthMm: number) => number;
}

/** Points on the elastic, the plastic and the necking part: curvature is resolved far below any noise. */
const ELASTIC_POINTS = 400;
const PLASTIC_POINTS = 4_000;
const NECK_POINTS = 800;

interface Zone {
  readonly startMm: number;
  readonly endMm: number;
  readonly modulusMpa: number;
  readonly law: PlasticLaw;
}

/** Throws a RangeError where the scenario's constants make no pull. */
export function pullPath(scenario: Scenario): PullPath {
  const areaMm2 = sectionAreaMm2(scenario.specimen);
  if (areaMm2 === null) throw new RangeError('the specimen has no section');
  const zones = zonesOf(scenario);
  const governing = zones.reduce((weakest, zone) =>
    zone.law.largestStressMpa < weakest.law.largestStressMpa ? zone : weakest,
  );
  const { positionMm, earlyAtStressMpa } = scenario.fracture;
  if (earlyAtStressMpa === undefined && (positionMm < governing.startMm || positionMm > governing.endMm))
    throw new RangeError('the fracture must lie in the zone that gives the least load');

  const gaugeMm = scenario.extensometer?.gaugeLengthMm ?? 0;
  const state: Assembly = {
    scenario,
    areaMm2,
    zones,
    gaugeMm,
    largestStress: 0,
    plastic: zones.map(() => 0),
  };
  const points: PathPoint[] = [];
  const breakStress = earlyAtStressMpa ?? Number.POSITIVE_INFINITY;

  for (let step = 0; step <= ELASTIC_POINTS; step++) {
    const stress = Math.min((governing.law.firstYieldMpa * step) / ELASTIC_POINTS, breakStress);
    points.push(pointAt(state, { stress, governing, governingPlastic: 0, neckMm: 0 }));
    if (stress >= breakStress) break;
  }
  let broken = governing.law.firstYieldMpa >= breakStress;
  const uniform = governing.law.uniformPlasticStrain;
  for (let step = 1; step <= PLASTIC_POINTS && !broken; step++) {
    // Finer at the beginning, where the yield point drops.
    const governingPlastic = uniform * (step / PLASTIC_POINTS) ** 2;
    const stress = governing.law.stressMpa(governingPlastic);
    broken = stress >= breakStress;
    points.push(
      pointAt(state, { stress: Math.min(stress, breakStress), governing, governingPlastic, neckMm: 0 }),
    );
  }
  const { elongationMm, loadRatioAtBreak } = scenario.neck;
  const uniformStress = governing.law.stressMpa(uniform);
  for (let step = 1; step <= NECK_POINTS && !broken && elongationMm > 0; step++) {
    const share = step / NECK_POINTS;
    const stress = uniformStress * (1 - (1 - loadRatioAtBreak) * share ** 2);
    points.push(
      pointAt(state, { stress, governing, governingPlastic: uniform, neckMm: elongationMm * share }),
    );
  }

  const neckMm = broken ? 0 : elongationMm;
  return {
    points,
    areaMm2,
    law: governing.law,
    largestForceN: Math.max(...points.map((point) => point.forceN)),
    breakTravelMm: points.reduce((travel, point) => Math.max(travel, point.travelMm), 0),
    plasticElongationMm: (gaugeLengthMm) =>
      zones.reduce(
        (sum, zone, index) => sum + overlapMm(zone, gaugeLengthMm) * (state.plastic[index] ?? 0),
        neckMm * neckShare(scenario, gaugeLengthMm),
      ),
  };
}

interface Assembly {
  readonly scenario: Scenario;
  readonly areaMm2: number;
  readonly zones: readonly Zone[];
  readonly gaugeMm: number;
  largestStress: number;
  /** Engineering plastic strain of each zone: it only grows. */
  readonly plastic: number[];
}

interface PathState {
  readonly stress: number;
  readonly governing: Zone;
  readonly governingPlastic: number;
  readonly neckMm: number;
}

function pointAt(assembly: Assembly, { stress, governing, governingPlastic, neckMm }: PathState): PathPoint {
  const { scenario, areaMm2, zones, gaugeMm, plastic } = assembly;
  assembly.largestStress = Math.max(assembly.largestStress, stress);
  let specimenMm = neckMm;
  let extensionMm = neckMm * neckShare(scenario, gaugeMm);
  zones.forEach((zone, index) => {
    const own = zone === governing ? governingPlastic : plasticStrainAt(zone.law, assembly.largestStress);
    plastic[index] = Math.max(plastic[index] ?? 0, own);
    const strain = stress / zone.modulusMpa + plastic[index];
    specimenMm += (zone.endMm - zone.startMm) * strain;
    extensionMm += overlapMm(zone, gaugeMm) * strain;
  });
  const forceN = stress * areaMm2;
  const { slackMm, gripTakeUpMm, gripSeatingLoadN, stiffnessNPerMm } = scenario.frame;
  const settled = gripTakeUpMm * (1 - Math.exp((-assembly.largestStress * areaMm2) / gripSeatingLoadN));
  return {
    travelMm: slackMm + settled + forceN / stiffnessNPerMm + specimenMm,
    forceN,
    extensionMm,
  };
}

/** Plastic strain of a zone that hardens steadily under a stress below its largest: by bisection. */
function plasticStrainAt(law: PlasticLaw, stressMpa: number): number {
  if (stressMpa <= law.firstYieldMpa) return 0;
  let low = 0;
  let high = law.uniformPlasticStrain;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (law.stressMpa(middle) < stressMpa) low = middle;
    else high = middle;
  }
  return high;
}

function zonesOf(scenario: Scenario): Zone[] {
  let startMm = -scenario.parallelLengthMm / 2;
  return scenario.zones.map((zone) => {
    const endMm = startMm + zone.lengthMm;
    const placed = { startMm, endMm, modulusMpa: zone.elasticModulusMpa, law: plasticLaw(zone.plasticity) };
    startMm = endMm;
    return placed;
  });
}

/** Length of a zone that lies between the marks of a gauge length in the middle of the specimen. */
function overlapMm(zone: Zone, gaugeMm: number): number {
  return Math.max(0, Math.min(zone.endMm, gaugeMm / 2) - Math.max(zone.startMm, -gaugeMm / 2));
}

/** The part of the neck's elongation that a gauge length sees: all, none, or some where the neck straddles a mark. */
function neckShare({ fracture, neck }: Scenario, gaugeMm: number): number {
  const inside = (gaugeMm / 2 - Math.abs(fracture.positionMm)) / neck.widthMm + 0.5;
  return Math.min(1, Math.max(0, inside));
}
