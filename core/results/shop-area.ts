/**
 * The shop's arithmetic: the area is rounded before the force is divided by it, as on a calculator.
 * Common practice, no source. It stands beside the unrounded arithmetic and never replaces it.
 */
import { type Exact, exactFromNumber, toNumber } from '../quantity/exact.ts';
import { type UnitSymbol, convertExact } from '../quantity/units.ts';
import { roundSignificant } from '../quantity/round-exact.ts';

/** A calliper reads four digits at most, so the shop writes the area with four. */
export const SHOP_AREA_DIGITS = 4;

export interface ShopArea {
  /** Unit of the area that belongs to the unit the dimensions were typed in. */
  readonly unit: UnitSymbol;
  readonly unrounded: number;
  readonly value: number;
  readonly text: string;
  readonly digits: number;
  readonly rule: string;
}

/** Area rounded first, in the unit of the dimensions as typed. */
export function shopArea(areaMm2: Exact, unit: UnitSymbol): ShopArea {
  const inUnit = convertExact(areaMm2, 'mm²', unit);
  const rounded = roundSignificant(inUnit, SHOP_AREA_DIGITS, 'half-even');
  return {
    unit,
    unrounded: toNumber(inUnit),
    value: toNumber(rounded.value),
    text: rounded.text,
    digits: SHOP_AREA_DIGITS,
    rule: `area rounded first, to ${String(SHOP_AREA_DIGITS)} significant digits (common practice, no source)`,
  };
}

export interface ShopStrength {
  readonly unit: UnitSymbol;
  readonly forceUnit: UnitSymbol;
  readonly force: number;
  /** Force over the area as rounded. */
  readonly onRoundedArea: number;
  /** Force over the area as it is. */
  readonly onUnroundedArea: number;
  /** Both, as a working in one line. */
  readonly substituted: string;
}

/** Strength both ways, in psi where the dimensions were typed in inches, else in MPa; written to 1 psi or 0.1 MPa. */
export function shopStrength(forceN: number, area: ShopArea): ShopStrength {
  const us = area.unit === 'in²';
  const unit: UnitSymbol = us ? 'psi' : 'MPa';
  const forceUnit: UnitSymbol = us ? 'lbf' : 'N';
  const force = toNumber(convertExact(exactFromNumber(forceN), 'N', forceUnit));
  const onRoundedArea = force / area.value;
  const onUnroundedArea = force / area.unrounded;
  const text = (value: number): string => value.toFixed(us ? 0 : 1);
  return {
    unit,
    forceUnit,
    force,
    onRoundedArea,
    onUnroundedArea,
    substituted: `${force.toFixed(0)} ${forceUnit} / ${area.text} ${area.unit} = ${text(onRoundedArea)} ${unit} (area rounded first); on the unrounded area ${text(onUnroundedArea)} ${unit}`,
  };
}
