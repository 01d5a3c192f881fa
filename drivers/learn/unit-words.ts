/** Units as readouts write them behind a number. Fewer than people type: a lone "G" or "M" there is a status letter. */
import { type Dimension, UNITS, type UnitSymbol } from '../../core/quantity/units.ts';

export interface WrittenUnit {
  readonly symbol: UnitSymbol;
  /** Shown number × scale is in `symbol`: for units that the program has not (daN). */
  readonly scale: string;
}

/** Written in any case. On a load readout "lb", "kg" and "t" are forces (common practice, no source). */
const ANY_CASE: Readonly<Record<string, UnitSymbol>> = {
  kn: 'kN',
  mn: 'MN',
  newton: 'N',
  lbf: 'lbf',
  lb: 'lbf',
  lbs: 'lbf',
  'lb-f': 'lbf',
  pound: 'lbf',
  pounds: 'lbf',
  kip: 'kip',
  kips: 'kip',
  klb: 'kip',
  klbs: 'kip',
  klbf: 'kip',
  kgf: 'kgf',
  kg: 'kgf',
  kgs: 'kgf',
  kp: 'kgf',
  tf: 'tf',
  ton: 'tf',
  mm: 'mm',
  cm: 'cm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  um: 'µm',
  µm: 'µm',
  micron: 'µm',
  mil: 'mil',
  mils: 'mil',
  sec: 's',
  secs: 's',
  ms: 'ms',
  msec: 'ms',
  min: 'min',
  '%': '%',
  pct: '%',
  ue: 'µε',
  µe: 'µε',
  ustrain: 'µε',
  µstrain: 'µε',
  microstrain: 'µε',
  'mm/mm': '1',
  'in/in': '1',
  'm/m': '1',
  mpa: 'MPa',
  gpa: 'GPa',
  psi: 'psi',
  ksi: 'ksi',
  'n/mm2': 'MPa',
  'n/mm²': 'MPa',
};
/** One letter, or meaning something else in another case. */
const AS_WRITTEN: Readonly<Record<string, UnitSymbol>> = { N: 'N', s: 's', t: 'tf', µε: 'µε' };
const SCALED: Readonly<Record<string, WrittenUnit>> = { dan: { symbol: 'N', scale: '10' } };

/** The unit that a word behind a number stands for; null where it is no unit that a readout shows. */
export function writtenUnit(text: string): WrittenUnit | null {
  // UTF-8 seen byte by byte: "µ" and "ε" come as two.
  const word = text
    .trim()
    .replace(/\.$/, '')
    .replaceAll('Âµ', 'µ')
    .replaceAll('Î¼', 'µ')
    .replaceAll('Îµ', 'ε');
  const lower = word.toLowerCase().replaceAll('μ', 'µ');
  const symbol = Object.hasOwn(AS_WRITTEN, word)
    ? AS_WRITTEN[word]
    : Object.hasOwn(ANY_CASE, lower)
      ? ANY_CASE[lower]
      : undefined;
  if (symbol !== undefined) return { symbol, scale: '1' };
  return Object.hasOwn(SCALED, lower) ? (SCALED[lower] ?? null) : null;
}

/** Units of what is shown beside a pull: electrical, temperature, pressure of the oil, speeds (common practice, no source). */
const FOREIGN =
  /^(?:[mµu]?V|mV\/V|m?A|°?C|°F|K|Hz|rpm|bar|%?FS|%RO|W|(?:mm|in|cm|µm)\/(?:s|min)|(?:k?N|MPa|lbf|lb|psi|%)\/(?:s|min))$/;

export const isForeignUnit = (text: string): boolean => FOREIGN.test(text.trim());

/** A unit that may be a label just as well. */
export const isLoneLetter = (text: string): boolean => /^[A-Za-z]$/.test(text.trim());

export function dimensionOf(unit: WrittenUnit): Dimension {
  return UNITS[unit.symbol].dimension;
}
