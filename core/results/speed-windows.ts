/** The windows of testing speed that ASTM E8/E8M and ISO 6892-1 allow, each with where its figures come from. */

export const SPEED_STAGES = ['elastic', 'yield', 'to-maximum'] as const;
export type SpeedStage = (typeof SPEED_STAGES)[number];

/** What is measured: stress rate MPa/s, strain rate over the gauge length 1/s, travel rate over the parallel length 1/s. */
export const SPEED_QUANTITIES = ['stress-rate', 'strain-rate', 'crosshead-rate'] as const;
export type SpeedQuantity = (typeof SPEED_QUANTITIES)[number];

export interface SpeedWindow {
  /** Named range of the standard where it has several ("range 2"). */
  readonly name?: string;
  /** In MPa/s or 1/s. */
  readonly lower?: number;
  readonly upper: number;
}

export interface SpeedRule {
  readonly standard: 'ASTM E8/E8M' | 'ISO 6892-1';
  readonly method: string;
  readonly stage: SpeedStage;
  /** Quantities that may answer, the best first. */
  readonly quantities: readonly SpeedQuantity[];
  /** Any one of them will do. */
  readonly windows: readonly SpeedWindow[];
  readonly source: string;
  /** Slope of the elastic part for which the rule holds, MPa: from (included) to (excluded). */
  readonly slopeMpa?: { readonly from: number; readonly to: number };
}

const PER_MINUTE = 1 / 60;
const plusMinus = (middle: number, by: number, name?: string): SpeedWindow => ({
  lower: middle - by,
  upper: middle + by,
  ...(name === undefined ? {} : { name }),
});
const isoRange = (name: string, middle: number): SpeedWindow => plusMinus(middle, 0.2 * middle, name);

/** ISO 6892-1 method A: each range ±20 %. */
const RANGE_1 = isoRange('range 1', 0.000_07);
const RANGE_2 = isoRange('range 2', 0.000_25);
const RANGE_3 = isoRange('range 3', 0.002);
const RANGE_4 = isoRange('range 4', 0.0067);

const LABORATORY_PAGE = 'test laboratory summary of ASTM E8/E8M';
const STRAIN_THEN_TRAVEL: readonly SpeedQuantity[] = ['strain-rate', 'crosshead-rate'];

/** The limit between low and high modulus in ISO 6892-1 method B. */
const STIFF_MPA = 150_000;

export const SPEED_RULES: readonly SpeedRule[] = [
  {
    standard: 'ASTM E8/E8M',
    method: 'method A, stress rate',
    stage: 'elastic',
    quantities: ['stress-rate'],
    // 10 000 to 100 000 psi/min is 1.149 to 11.49 MPa/s and printed as 1.15 to 11.5: the wider of the two counts.
    windows: [{ lower: 1.149, upper: 11.5 }],
    source: LABORATORY_PAGE,
  },
  {
    standard: 'ASTM E8/E8M',
    method: 'method B, strain rate',
    stage: 'yield',
    quantities: ['strain-rate'],
    windows: [plusMinus(0.015 * PER_MINUTE, 0.006 * PER_MINUTE)],
    source: LABORATORY_PAGE,
  },
  {
    standard: 'ASTM E8/E8M',
    method: 'method C, crosshead over reduced section',
    stage: 'yield',
    quantities: ['crosshead-rate'],
    windows: [plusMinus(0.015 * PER_MINUTE, 0.003 * PER_MINUTE)],
    source: LABORATORY_PAGE,
  },
  {
    standard: 'ASTM E8/E8M',
    method: 'after yield, for tensile strength',
    stage: 'to-maximum',
    quantities: ['crosshead-rate', 'strain-rate'],
    windows: [{ lower: 0.05 * PER_MINUTE, upper: 0.5 * PER_MINUTE }],
    source: 'ASTM E8/E8M (from memory)',
  },
  {
    standard: 'ISO 6892-1',
    method: 'method A, through yield',
    stage: 'yield',
    quantities: STRAIN_THEN_TRAVEL,
    windows: [RANGE_1, RANGE_2],
    source: 'ISO 6892-1 (range 2 from a published procedure, range 1 from memory)',
  },
  {
    standard: 'ISO 6892-1',
    method: 'method A, to maximum force',
    stage: 'to-maximum',
    quantities: STRAIN_THEN_TRAVEL,
    windows: [RANGE_2, RANGE_3, RANGE_4],
    source: 'ISO 6892-1 (ranges 3 and 4 from memory)',
  },
  {
    standard: 'ISO 6892-1',
    method: 'method B, elastic part, modulus of 150 GPa and over',
    stage: 'elastic',
    quantities: ['stress-rate'],
    windows: [{ lower: 6, upper: 60 }],
    source: 'ISO 6892-1 by a published procedure',
    slopeMpa: { from: STIFF_MPA, to: Infinity },
  },
  {
    standard: 'ISO 6892-1',
    method: 'method B, elastic part, modulus under 150 GPa',
    stage: 'elastic',
    quantities: ['stress-rate'],
    windows: [{ lower: 2, upper: 20 }],
    source: 'ISO 6892-1 (from memory)',
    slopeMpa: { from: 0, to: STIFF_MPA },
  },
  {
    standard: 'ISO 6892-1',
    method: 'method B, through yield',
    stage: 'yield',
    quantities: STRAIN_THEN_TRAVEL,
    windows: [{ upper: 0.0025 }],
    source: 'ISO 6892-1 by a published procedure',
  },
  {
    standard: 'ISO 6892-1',
    method: 'method B, to maximum force',
    stage: 'to-maximum',
    quantities: STRAIN_THEN_TRAVEL,
    windows: [{ upper: 0.008 }],
    source: 'ISO 6892-1 by a published procedure',
  },
];
