/**
 * The shop's arithmetic: the area is rounded before the force is divided by it, as on a calculator.
 * Common practice, no source. It stands beside the unrounded arithmetic and never replaces it.
 */
import { type Exact, exactFromNumber, toNumber } from '../quantity/exact.ts';
import { type UnitSymbol, convertExact } from '../quantity/units.ts';
import { roundSignificant } from '../quantity/round-exact.ts';
import type { Rounded } from './result.ts';

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
    rule: AREA_RULE,
  };
}

const AREA_RULE = `area rounded first, to ${String(SHOP_AREA_DIGITS)} significant digits (common practice, no source)`;
const STRENGTH_RULE = `shop arithmetic: ${AREA_RULE}`;
const ROUNDED_FIRST = '(area rounded first)';

/** The area as the shop rounds it. */
export function roundedArea({ value, text, unit, digits }: ShopArea): Rounded {
  const decimals = text.split('.')[1]?.length ?? 0;
  const step = decimals > 0 ? 10 ** -decimals : 10 ** Math.max(0, text.length - digits);
  return { value, text, unit, step, rule: AREA_RULE };
}

const STRENGTH_DECIMALS = { psi: 0, MPa: 1 } as const;

export interface ShopStrength {
  readonly unit: keyof typeof STRENGTH_DECIMALS;
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
  const unit = us ? 'psi' : 'MPa';
  const forceUnit: UnitSymbol = us ? 'lbf' : 'N';
  const force = toNumber(convertExact(exactFromNumber(forceN), 'N', forceUnit));
  const onRoundedArea = force / area.value;
  const onUnroundedArea = force / area.unrounded;
  const text = (value: number): string => value.toFixed(STRENGTH_DECIMALS[unit]);
  return {
    unit,
    forceUnit,
    force,
    onRoundedArea,
    onUnroundedArea,
    substituted: `${force.toFixed(0)} ${forceUnit} / ${area.text} ${area.unit} = ${text(onRoundedArea)} ${unit} ${ROUNDED_FIRST}; on the unrounded area ${text(onUnroundedArea)} ${unit}`,
  };
}

/** The strength on the area as rounded. */
export function roundedStrength({ onRoundedArea, unit }: ShopStrength): Rounded {
  const decimals = STRENGTH_DECIMALS[unit];
  const text = onRoundedArea.toFixed(decimals);
  return { value: Number(text), text, unit, step: 10 ** -decimals, rule: STRENGTH_RULE };
}

/** A line of a working, or a rounding, that belongs to this arithmetic: in other units it is done anew, never converted. */
export const isShopLine = (step: string): boolean => step.includes(ROUNDED_FIRST);
export const isShopRounding = ({ rule }: Rounded): boolean => rule === AREA_RULE || rule === STRENGTH_RULE;
