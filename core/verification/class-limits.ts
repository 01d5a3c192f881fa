/**
 * What each class allows, in percent, as exact decimals. ISO 7500-1 table 2: from memory, check against your own copy.
 * ASTM E4: error within ±1 % at each verified force (E4-14) and lower limit 200 times the resolution (E4-16, 10.1);
 * repeatability within 1 % from memory.
 */

export const ISO_CLASSES = ['0.5', '1', '2', '3'] as const;
export type IsoClass = (typeof ISO_CLASSES)[number];

export interface ClassLimits {
  /** Relative indication error q, either way. */
  readonly error: string;
  /** Relative repeatability error b. */
  readonly repeatability: string;
  /** Relative reversibility error v, either way. */
  readonly reversibility: string;
  /** Relative zero error f0, either way. */
  readonly zero: string;
  /** Relative resolution a. */
  readonly resolution: string;
  /** The lowest force of the class is this many times the resolution. */
  readonly timesResolution: number;
}

export const ISO_LIMITS: Readonly<Record<IsoClass, ClassLimits>> = {
  '0.5': {
    error: '0.5',
    repeatability: '0.5',
    reversibility: '0.75',
    zero: '0.05',
    resolution: '0.25',
    timesResolution: 400,
  },
  '1': {
    error: '1',
    repeatability: '1',
    reversibility: '1.5',
    zero: '0.1',
    resolution: '0.5',
    timesResolution: 200,
  },
  '2': {
    error: '2',
    repeatability: '2',
    reversibility: '3',
    zero: '0.2',
    resolution: '1',
    timesResolution: 100,
  },
  '3': {
    error: '3',
    repeatability: '3',
    reversibility: '4.5',
    zero: '0.3',
    resolution: '1.5',
    timesResolution: 67,
  },
};

export const ISO_SOURCE = 'ISO 7500-1 (q and b as in ISO 7500-1:1999, annex C; v, a and f0 from memory)';

export const E4_LIMITS = { error: '1', repeatability: '1', timesResolution: 200 } as const;
export const E4_SOURCE = 'ASTM E4 (error E4-14, lower limit E4-16 10.1; repeatability from memory)';

/** Runs on the way up that a statement of conformity rests on: ISO 7500-1 from memory, ASTM E4-16 7.4. */
export const ISO_RUNS_MIN = 3;
export const E4_RUNS_MIN = 2;
/** Forces that a range is verified at or decade (E4-16, 10.2; ISO 7500-1 from memory). */
export const STEPS_MIN = 5;
/** Successive forces lie at most this share of the range or decade apart (E4-16, 10.2). */
export const E4_STEP_SHARE_MAX = { numerator: 1n, denominator: 3n } as const;
