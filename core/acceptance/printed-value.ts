/** A limit as a specification prints it: "70 ksi", "485 MPa", "22 %". Never converted when stored. */
import { z } from 'zod';
import type { Exact } from '../quantity/exact.ts';
import {
  QUANTITY_TEXT_LENGTH_MAX,
  parseQuantity,
  quantityFaultSentence,
} from '../quantity/parse-quantity.ts';
import { UNITS, type UnitSymbol } from '../quantity/units.ts';

export interface PrintedValue {
  readonly text: string;
  readonly exact: Exact;
  readonly unit: UnitSymbol;
}

export type UnitSystem = 'US' | 'SI';

/** A number followed by a stress or strain unit; two of them in one text are two values. */
const VALUE_WITH_UNIT = /\d\s*(?:psi|ksi|msi|[kmg]?pa\b|n\/mm|%)/gi;

/** What is wrong with a printed value, as a sentence, or null where nothing is. */
export function printedValueFault(
  text: string,
  dimension: 'stress' | 'strain',
  system?: UnitSystem,
): string | null {
  const example = dimension === 'strain' ? '"22 %"' : system === 'SI' ? '"485 MPa"' : '"70 ksi"';
  if ((text.match(VALUE_WITH_UNIT) ?? []).length > 1) {
    return `"${text.slice(0, QUANTITY_TEXT_LENGTH_MAX)}" holds two values or two units; give one value with one unit, for example ${example}, and the other system's figure in its own field`;
  }
  const read = parseQuantity(text, { dimension });
  if (!read.ok) return quantityFaultSentence(read.fault, text, dimension).replace(/\.$/, '');
  if (read.quantity.exact.compare(0) < 0) {
    return `"${text}" is negative; a limit can't be below zero: write the value that the specification prints, for example ${example}`;
  }
  if (read.quantity.exact.compare(0) === 0) {
    return `"${text}" is zero and would limit nothing; leave the field out where nothing is specified`;
  }
  const unitSystem = UNITS[read.quantity.unit].system;
  if (system !== undefined && unitSystem !== system) {
    return `"${text}" is in ${read.quantity.unit}, but this field holds the ${system} figure; write it in ${system === 'US' ? 'psi or ksi' : 'MPa'} as the specification prints it`;
  }
  if (dimension === 'strain' && read.quantity.unit !== '%') {
    return `"${text}" is given in ${read.quantity.unit}; write elongation in per cent, for example ${example}`;
  }
  return null;
}

/** zod schema of a printed value of one dimension (and, for strengths, of one unit system). */
export function printedValue(dimension: 'stress' | 'strain', system?: UnitSystem) {
  return z
    .string({ error: 'write the value as text with its unit, for example "70 ksi" or "22 %"' })
    .min(1)
    .max(QUANTITY_TEXT_LENGTH_MAX)
    .superRefine((text, context) => {
      const fault = printedValueFault(text, dimension, system);
      if (fault !== null) context.addIssue({ code: 'custom', message: fault });
    });
}

/** Reads a value that was checked before. Throws a RangeError on a text that no check let through. */
export function readPrintedValue(text: string): PrintedValue {
  for (const dimension of ['stress', 'strain'] as const) {
    const read = parseQuantity(text, { dimension });
    if (read.ok) return { text: read.quantity.text, exact: read.quantity.exact, unit: read.quantity.unit };
  }
  throw new RangeError(`not a printed value: ${text}`);
}
