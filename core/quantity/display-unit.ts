/** The unit in which people of one system read a value that core keeps in the other. */
import { type UnitSymbol, convert } from './units.ts';

export const UNIT_SYSTEMS = ['si', 'us'] as const;
export type DisplaySystem = (typeof UNIT_SYSTEMS)[number];

const US_UNIT: Readonly<Partial<Record<UnitSymbol, UnitSymbol>>> = {
  mm: 'in',
  'mm²': 'in²',
  N: 'lbf',
  kN: 'lbf',
  MPa: 'psi',
  GPa: 'Msi',
  J: 'ft·lbf',
  'mm/s': 'in/min',
  'MPa/s': 'psi/min',
};

/** in, in², lbf, psi, Msi, ft·lbf instead of mm, mm², N, MPa, GPa, J for "us"; everything else stays as it is. */
export function displayUnit(unit: UnitSymbol, system: DisplaySystem): UnitSymbol {
  return system === 'us' ? (US_UNIT[unit] ?? unit) : unit;
}

/** A value in the unit that people of the system read. */
export function inDisplayUnit(
  value: number,
  unit: UnitSymbol,
  system: DisplaySystem,
): { readonly value: number; readonly unit: UnitSymbol } {
  const target = displayUnit(unit, system);
  return { value: convert(value, unit, target), unit: target };
}
