/** A made-up pull for looking at the page without a recorder: steel with a yield plateau, noise, slack and a break. */

export interface SyntheticPoint {
  readonly forceN: number;
  readonly extensionMm: number;
}

const AREA_MM2 = 76.3;
const GAUGE_MM = 50;

/** Stress–strain of the specimen, engineering; falls after the peak as it necks. */
function stressMpa(strain: number): number {
  const elastic = strain * 206_000;
  if (elastic < 318) return elastic;
  const plastic = strain - 318 / 206_000;
  if (plastic < 0.0006) return 318 - (plastic / 0.0006) * 20;
  if (plastic < 0.017) return 298 + 2 * Math.sin(plastic * 2_400);
  const hardening = 298 + 158 * (1 - Math.exp(-(plastic - 0.017) / 0.045));
  const neck = Math.max(0, strain - 0.21);
  return hardening - 1_500 * neck ** 1.6;
}

export const BREAK_STRAIN = 0.31;
/** Seconds of idling before the load comes on. */
export const IDLE_S = 3;

/** Load and extension at a time since the readout was opened, without noise. */
export function syntheticPoint(timeS: number): SyntheticPoint {
  const pulledS = timeS - IDLE_S;
  if (pulledS <= 0) return { forceN: 0, extensionMm: 0 };
  // Slack first, then slow through the yield, then faster.
  const strain = pulledS < 1 ? 0 : pulledS < 9 ? (pulledS - 1) * 0.0028 : 0.0224 + (pulledS - 9) * 0.02;
  if (strain >= BREAK_STRAIN) return { forceN: 0, extensionMm: BREAK_STRAIN * GAUGE_MM * 0.985 };
  return { forceN: stressMpa(strain) * AREA_MM2, extensionMm: strain * GAUGE_MM };
}

/** Small steady pseudo-random numbers, −1 to 1, the same at every run. */
export function noise(index: number, salt: number): number {
  const x = Math.sin(index * 12.9898 + salt * 78.233) * 43_758.5453;
  return 2 * (x - Math.floor(x)) - 1;
}
