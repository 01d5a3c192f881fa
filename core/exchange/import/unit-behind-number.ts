/** A cell like "12.5 kN": a number with its unit behind it. */
import { type UnitSymbol, unitFromText } from '../../quantity/units.ts';
import { type NumberStyle, plainNumberText } from './cell-number.ts';

export interface NumberWithUnit {
  /** With a point and without groups. */
  readonly number: string;
  readonly unit: UnitSymbol;
}

const NUMBER_THEN_TEXT =
  /^([+\-−]?[\d.,'][\d.,' \u00a0\u202f]*?(?:[eE][+-]?\d{1,3})?)\s*([^\d\s.,'+-].{0,15})$/;

/** Null where the cell is not a number followed by a unit that is known. */
export function unitBehindNumber(cell: string, style: NumberStyle): NumberWithUnit | null {
  const match = NUMBER_THEN_TEXT.exec(cell);
  if (match === null) return null;
  const unit = unitFromText(match[2] ?? '');
  const number = plainNumberText((match[1] ?? '').trim(), style);
  return unit === null || number === null ? null : { number, unit: unit.symbol as UnitSymbol };
}
