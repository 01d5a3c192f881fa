/** Where and how a specimen broke, in the words that rules ask for. */

export const FRACTURE_LOCATIONS = [
  'weld-metal',
  'fusion-line',
  'heat-affected-zone',
  'base-metal',
  'outside-gauge',
  'grips',
] as const;
export type FractureLocation = (typeof FRACTURE_LOCATIONS)[number];

/** For sentences: "it broke …". */
export const LOCATION_WORDS: Readonly<Record<FractureLocation, string>> = {
  'weld-metal': 'in the weld metal',
  'fusion-line': 'at the fusion line (weld interface)',
  'heat-affected-zone': 'in the heat-affected zone',
  'base-metal': 'in the base metal',
  'outside-gauge': 'outside the gauge length',
  grips: 'in the grips',
};

/** Whether the exposed fracture meets the soundness rules that the code names. */
export const SOUNDNESS = ['sound', 'unsound'] as const;
export type Soundness = (typeof SOUNDNESS)[number];

export const APPEARANCES = ['ductile', 'cup-and-cone', 'shear', 'brittle'] as const;
export type FractureAppearance = (typeof APPEARANCES)[number];

export interface FractureNote {
  /** Absent until somebody has looked; nothing is judged before. */
  readonly broke?: FractureLocation;
  readonly soundness?: Soundness;
  readonly appearance?: FractureAppearance;
  /** At a punched or scribed mark: an elongation between the marks is not representative. */
  readonly atGaugeMark?: boolean;
  /** Index of the base metal that broke, where two were joined. */
  readonly brokenBaseMetal?: number;
}

/** Why an elongation between the marks is not representative (ASTM E8, ASTM B557 7.8); null where it may be. */
export function elongationDoubt({ broke, atGaugeMark }: FractureNote): string | null {
  if (broke === 'outside-gauge') return 'it broke outside the gauge length';
  return atGaugeMark === true ? 'it broke at a gauge mark' : null;
}

const OTHER_SPELLINGS: Readonly<Record<string, FractureLocation>> = {
  weld: 'weld-metal',
  wm: 'weld-metal',
  fusion: 'fusion-line',
  interface: 'fusion-line',
  'weld-interface': 'fusion-line',
  'fusion-zone': 'fusion-line',
  haz: 'heat-affected-zone',
  base: 'base-metal',
  bm: 'base-metal',
  parent: 'base-metal',
  'parent-metal': 'base-metal',
  'parent-pipe': 'base-metal',
  plate: 'base-metal',
  pipe: 'base-metal',
  'outside-gage': 'outside-gauge',
  'outside-gauge-length': 'outside-gauge',
  'outside-gauge-marks': 'outside-gauge',
  grip: 'grips',
  'in-grips': 'grips',
};

/** The location that a text names ("HAZ", "weld metal"), or null. */
export function fractureLocationFromText(text: string): FractureLocation | null {
  const key = text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, '-');
  const exact = FRACTURE_LOCATIONS.find((location) => location === key);
  if (exact !== undefined) return exact;
  return Object.hasOwn(OTHER_SPELLINGS, key) ? (OTHER_SPELLINGS[key] ?? null) : null;
}
