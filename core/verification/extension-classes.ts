/**
 * What each class of an extensometer allows, as exact decimals. ISO 9513:2012 and ASTM E83-23 table 1: from memory, check
 * against your own copy (that E83 has these six classes, each limit the greater of a fixed strain and a share of the
 * reading, is in its published abstract).
 */
export const ISO_9513_CLASSES = ['0.2', '0.5', '1', '2'] as const;
export type Iso9513Class = (typeof ISO_9513_CLASSES)[number];

export interface Iso9513Limits {
  /** Of the gauge length, either way, %. */
  readonly gaugeLength: string;
  /** Resolution: the greater of a share of the displacement, %, and so many µm. */
  readonly resolutionPercent: string;
  readonly resolutionUm: string;
  /** Bias: the greater of both, either way. */
  readonly biasPercent: string;
  readonly biasUm: string;
}

export const ISO_9513_LIMITS: Readonly<Record<Iso9513Class, Iso9513Limits>> = {
  '0.2': {
    gaugeLength: '0.2',
    resolutionPercent: '0.1',
    resolutionUm: '0.2',
    biasPercent: '0.2',
    biasUm: '0.6',
  },
  '0.5': {
    gaugeLength: '0.5',
    resolutionPercent: '0.25',
    resolutionUm: '0.5',
    biasPercent: '0.5',
    biasUm: '1.5',
  },
  '1': { gaugeLength: '1', resolutionPercent: '0.5', resolutionUm: '1', biasPercent: '1', biasUm: '3' },
  '2': { gaugeLength: '2', resolutionPercent: '1', resolutionUm: '2', biasPercent: '2', biasUm: '6' },
};
export const ISO_9513_SOURCE = 'ISO 9513:2012, from memory';

export const E83_CLASSES = ['A', 'B-1', 'B-2', 'C', 'D', 'E'] as const;
export type E83Class = (typeof E83_CLASSES)[number];

export interface E83Limits {
  /** Error of strain: the greater of so much strain and a share of the strain, %. */
  readonly strain: string;
  readonly percent: string;
  /** Of the gauge length, either way, %. */
  readonly gaugeLength: string;
}

export const E83_LIMITS: Readonly<Record<E83Class, E83Limits>> = {
  A: { strain: '0.00002', percent: '0.1', gaugeLength: '0.1' },
  'B-1': { strain: '0.0001', percent: '0.5', gaugeLength: '0.25' },
  'B-2': { strain: '0.0002', percent: '0.5', gaugeLength: '0.5' },
  C: { strain: '0.001', percent: '1', gaugeLength: '1' },
  D: { strain: '0.01', percent: '1', gaugeLength: '1' },
  E: { strain: '0.1', percent: '1', gaugeLength: '1' },
};
export const E83_SOURCE = 'ASTM E83-23 table 1, from memory';

/** Series that a statement rests on, and displacements of each (both standards, from memory). */
export const EXTENSION_RUNS_MIN = 2;
export const EXTENSION_STEPS_MIN = 5;
