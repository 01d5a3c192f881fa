/** L0 of a proportional specimen: k·√S0, k = 5.65 (5d of a round bar) or 11.3 (10d); ISO 6892-1. */

export const PROPORTIONAL_FACTORS = [5.65, 11.3] as const;
export type ProportionalFactor = (typeof PROPORTIONAL_FACTORS)[number];

/** Gauge length in mm for an area in mm². What was actually marked is what counts for A, not this figure. */
export function proportionalGaugeLengthMm(areaMm2: number, factor: ProportionalFactor = 5.65): number {
  return factor * Math.sqrt(areaMm2);
}
