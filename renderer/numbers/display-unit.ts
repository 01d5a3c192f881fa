/** Which unit a quantity is shown in. The choice is the page's alone: nothing recorded depends on it. */
import { CORE_UNIT, type Dimension, UNITS, type UnitSymbol, convert } from '../../core/quantity/units.ts';

export const UNIT_SYSTEMS = ['SI', 'US'] as const;
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

const SI: Partial<Record<Dimension, UnitSymbol>> = {
  length: 'mm',
  area: 'mm²',
  force: 'kN',
  stress: 'MPa',
  strain: '%',
  time: 's',
  mass: 'g',
  density: 'g/cm³',
  speed: 'mm/min',
  'stress-rate': 'MPa/s',
  energy: 'J',
};
const US: Partial<Record<Dimension, UnitSymbol>> = {
  length: 'in',
  area: 'in²',
  force: 'lbf',
  stress: 'psi',
  strain: '%',
  time: 's',
  mass: 'lb',
  density: 'lb/in³',
  speed: 'in/min',
  'stress-rate': 'psi/s',
  energy: 'ft·lbf',
};

/** The unit for a dimension in a system; the dimension's own where the systems have none of their own. */
export function displayUnit(dimension: Dimension, system: UnitSystem): UnitSymbol {
  return (system === 'SI' ? SI : US)[dimension] ?? CORE_UNIT[dimension];
}

/** Moduli and slopes are written in GPa and Msi; in MPa and psi they are longer than anybody reads. */
const MODULUS_MPA_MIN = 10_000;

/** The unit that a value of this size is shown in. */
export function unitForValue(value: number, unit: UnitSymbol, system: UnitSystem): UnitSymbol {
  const { dimension } = UNITS[unit];
  if (dimension === 'stress' && Math.abs(convert(value, unit, 'MPa')) >= MODULUS_MPA_MIN)
    return system === 'SI' ? 'GPa' : 'Msi';
  return displayUnit(dimension, system);
}

/** kN reads badly for a thin wire: below this a load is shown in N. */
export const SMALL_LOAD_N = 2_000;

/** The unit for loads of a pull, fixed by its largest planned or reached load so that it never changes midway. */
export function loadUnit(largestN: number, system: UnitSystem): UnitSymbol {
  if (system === 'US') return 'lbf';
  return largestN < SMALL_LOAD_N ? 'N' : 'kN';
}
