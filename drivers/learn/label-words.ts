/** What the name of a field says about its quantity, and what a heading says about its unit. */
import type { ProfileQuantity } from '../../core/contract/readout-profile.ts';
import type { Dimension } from '../../core/quantity/units.ts';
import { type WrittenUnit, writtenUnit } from './unit-words.ts';

export type LearntQuantity = Exclude<ProfileQuantity, 'other'>;

/**
 * Words of the trade and their usual short forms (common practice, no source), with those that readouts made for
 * German, Spanish, French, Italian and Portuguese shops write; without accents.
 */
const WORDS: readonly (readonly [LearntQuantity, RegExp])[] = [
  [
    'time',
    /^(?:time|t|ts|tm|timestamp|elapsed|clock|sec|secs|seconds|zeit|tms|tiempo|temps|tempo|ms|msec|millis)$/,
  ],
  ['stress', /^(?:stress|sigma|sig|rm|r|spannung|spg|esfuerzo|contrainte|sforzo|tensao)$/],
  ['strain', /^(?:strain|eps|epsilon|e%|strn|dehnung|deformacion|deformation|deformazione|deformacao)$/],
  [
    'extension',
    /^(?:ext|extn|extension|extens|extensometer|elong|elongation|exto|e|x|dl|xt|ex|le|delta|gauge|gage|verlangerung|alargamiento|elongacion|allongement|allungamento|alongamento)$/,
  ],
  [
    'travel',
    /^(?:travel|trav|pos|position|stroke|strk|str|crosshead|xhead|xhd|xh|disp|displacement|displ|ram|s|way|weg|actuator|head|beam|traverse|hub|carrera|recorrido|desplazamiento|desplaz|course|deplacement|corsa|spostamento|curso|deslocamento)$/,
  ],
  [
    'force',
    /^(?:force|load|f|l|p|w|wt|weight|ld|frc|fz|fn|kraft|last|gross|net|gs|nt|n|g|lc|cell|loadcell|tension|pull|fuerza|carga|charge|forza|carico|forca)$/,
  ],
];

const PEAK = /^(?:peak|pk|max|maximum|hold|fmax|pmax|ph|mx|spitze|pico|maximo|picco|crete|hi|high)$/;

/**
 * Letters that stand for several lengths: displacement, dial or diameter, an axis, length or load, position or load. And
 * those that without a unit stand for a stress as well as for a stroke or a reading (common practice, no source).
 */
const SEVERAL_LENGTHS = /^[dhlpyz]$/;
const SEVERAL_THINGS = /^[drsyz]$/;

export interface LabelMeaning {
  readonly quantity: LearntQuantity | null;
  readonly peak: boolean;
  /** The label is a letter that stands for several quantities of this dimension: a person must say which. */
  readonly isAmbiguous: boolean;
}

/**
 * What a label says. One letter says little: where the unit is known, the dimension decides between the quantities
 * that it could be.
 */
export function meaningOfLabel(label: string, dimension: Dimension | null): LabelMeaning {
  const words = label
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/([a-z])\d+\b/g, '$1')
    .split(/[^a-zµε%]+/)
    .filter((word) => word !== '');
  const peak = words.some((word) => PEAK.test(word));
  const several = dimension === 'length' ? SEVERAL_LENGTHS : dimension === null ? SEVERAL_THINGS : null;
  const isAmbiguous = several !== null && words.some((word) => several.test(word));
  // The word next to the number first: what stands farther off may belong to the number before.
  for (const word of words.reverse()) {
    if (several?.test(word) === true) continue;
    const found = WORDS.filter(([quantity, pattern]) => pattern.test(word) && fits(quantity, dimension));
    const [first] = found;
    if (first !== undefined) return { quantity: first[0], peak, isAmbiguous: false };
  }
  return { quantity: peak && fits('force', dimension) ? 'force' : null, peak, isAmbiguous };
}

/** Whether a quantity can come in a dimension; anything can where none is known. */
export function fits(quantity: LearntQuantity, dimension: Dimension | null): boolean {
  if (dimension === null) return true;
  switch (quantity) {
    case 'force':
      return dimension === 'force';
    case 'extension':
    case 'travel':
      return dimension === 'length';
    case 'time':
      return dimension === 'time';
    case 'stress':
      return dimension === 'stress';
    case 'strain':
      return dimension === 'strain';
  }
}

/** The quantity that a unit alone says; a length is an extension until something speaks for travel. */
export function quantityOfDimension(dimension: Dimension): LearntQuantity | null {
  const said: Partial<Record<Dimension, LearntQuantity>> = {
    force: 'force',
    length: 'extension',
    time: 'time',
    stress: 'stress',
    strain: 'strain',
  };
  return said[dimension] ?? null;
}

/** The unit in brackets of a label ("Load [kN]:"); null without brackets. */
export function unitInBrackets(label: string): WrittenUnit | null {
  const bracket = /[([{<]\s*([^)\]}>]{1,12}?)\s*[)\]}>]/.exec(label)?.[1];
  return bracket === undefined ? null : writtenUnit(bracket);
}

/** The unit in a heading: "Load (kN)", "load [lbf]", "ext_mm", "Load / kN", "Load kN". */
export function unitOfHeading(heading: string): WrittenUnit | null {
  const bracketed = unitInBrackets(heading);
  if (bracketed !== null) return bracketed;
  const last = /[\s_/.,-]([A-Za-zµμ%²/"]{1,12})\s*$/.exec(heading)?.[1];
  return last === undefined ? writtenUnit(heading) : writtenUnit(last);
}
