/** One figure as it was read, without its unit: "10.02", "10,02"; a JSON number is taken as its shortest decimal text. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { DECIMAL_TEXT_LENGTH_MAX, type Exact, exactFromDecimal } from './exact.ts';
import { exactFromTypedNumber } from './parse-quantity.ts';

/** No force or length that anybody measures lies outside these, in any unit. */
const SMALLEST = exactFromDecimal('1e-12');
const LARGEST = exactFromDecimal('1e15');

export const typedFigure = atFirstUse(() =>
  z
    .union([z.string().trim().min(1).max(DECIMAL_TEXT_LENGTH_MAX), z.number().transform(String)])
    .refine((text) => exactFromTypedNumber(text) !== null, 'write one number as it was read, like "10.02"')
    .refine(
      (text) => canBeMeasured(exactFromTypedNumber(text)),
      'this is beyond anything that can be measured; check the number and its exponent',
    ),
);

/** What is no number is told of by the rule before. */
function canBeMeasured(exact: Exact | null): boolean {
  if (exact === null || SMALLEST === null || LARGEST === null || exact.equals(0)) return true;
  const magnitude = exact.abs();
  return magnitude.compare(SMALLEST) >= 0 && magnitude.compare(LARGEST) <= 0;
}

/** Throws a RangeError for a text that has not been checked. */
export function figureFromText(text: string): Exact {
  const exact = exactFromTypedNumber(text);
  if (exact === null) throw new RangeError(`"${text}" should have been checked to be a number`);
  return exact;
}
