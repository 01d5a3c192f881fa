/** The pull over time: a crosshead driven at given speeds along the path. */
import type { PullPath } from './pull-path.ts';
import type { Scenario } from './scenario.ts';

/** What an ideal instrument would see. */
export interface TrueState {
  readonly travelMm: number;
  readonly forceN: number;
  readonly extensionMm: number;
  readonly phase: 'rest' | 'pulling' | 'broken' | 'over';
}

/** States at times that must not go back. Seconds since the beginning of the rest before the start. */
export function pullInTime(scenario: Scenario, path: PullPath): (elapsedS: number) => TrueState {
  const { idleS, tailS } = scenario.drive;
  const breakS = idleS + secondsToTravel(scenario, path.breakTravelMm);
  const { points } = path;
  const gaugeMm = scenario.extensometer?.gaugeLengthMm ?? 0;
  const seesBreak = gaugeMm > 0 && Math.abs(scenario.fracture.positionMm) < gaugeMm / 2;
  const plasticMm = path.plasticElongationMm(gaugeMm);
  const atBreak = points.at(-1);
  if (atBreak === undefined) throw new RangeError('a path has points');
  // The specimen's, grips' and frame's elastic stretch opens the fracture when the load is gone.
  const sprungMm = atBreak.forceN / scenario.frame.stiffnessNPerMm;
  let index = 0;
  return (elapsedS) => {
    const travelMm = travelAfter(scenario, Math.min(elapsedS, breakS + tailS) - idleS);
    if (elapsedS <= idleS) return { travelMm: 0, forceN: 0, extensionMm: 0, phase: 'rest' };
    if (travelMm >= path.breakTravelMm) {
      const openedMm = seesBreak ? sprungMm + travelMm - path.breakTravelMm : 0;
      return {
        travelMm,
        forceN: 0,
        extensionMm: plasticMm + openedMm,
        phase: elapsedS > breakS + tailS ? 'over' : 'broken',
      };
    }
    // Where the load falls faster than the frame can follow, the path turns back in travel: it is jumped over.
    while (index + 1 < points.length - 1 && (points[index + 1]?.travelMm ?? 0) < travelMm) index++;
    const from = points[index];
    const to = points[index + 1];
    if (from === undefined || to === undefined) throw new RangeError('the path ends before the break');
    if (travelMm < from.travelMm) return { travelMm, forceN: 0, extensionMm: 0, phase: 'pulling' };
    const share =
      to.travelMm > from.travelMm
        ? Math.min(1, (travelMm - from.travelMm) / (to.travelMm - from.travelMm))
        : 1;
    return {
      travelMm,
      forceN: from.forceN + (to.forceN - from.forceN) * share,
      extensionMm: from.extensionMm + (to.extensionMm - from.extensionMm) * share,
      phase: 'pulling',
    };
  };
}

/** Length of the whole scenario, rest and tail included. */
export function scenarioSeconds(scenario: Scenario, path: PullPath): number {
  return scenario.drive.idleS + secondsToTravel(scenario, path.breakTravelMm) + scenario.drive.tailS;
}

function travelAfter({ drive }: Scenario, drivenS: number): number {
  let restS = Math.max(0, drivenS);
  let travelMm = 0;
  for (const { speedMmPerMin, untilTravelMm } of drive.steps) {
    const speed = speedMmPerMin / 60;
    const lengthMm =
      untilTravelMm === undefined ? Number.POSITIVE_INFINITY : Math.max(0, untilTravelMm - travelMm);
    if (restS * speed <= lengthMm) return travelMm + restS * speed;
    travelMm += lengthMm;
    restS -= lengthMm / speed;
  }
  return travelMm;
}

function secondsToTravel({ drive }: Scenario, travelMm: number): number {
  let done = 0;
  let seconds = 0;
  for (const { speedMmPerMin, untilTravelMm } of drive.steps) {
    const end = Math.min(travelMm, untilTravelMm ?? Number.POSITIVE_INFINITY);
    if (end > done) {
      seconds += ((end - done) * 60) / speedMmPerMin;
      done = end;
    }
  }
  return seconds;
}
