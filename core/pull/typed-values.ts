/** Values that a person read from the display of a frame that has no port, as they were typed. */
import { z } from 'zod';
import {
  QUANTITY_TEXT_LENGTH_MAX,
  parseQuantity,
  quantityFaultSentence,
} from '../quantity/parse-quantity.ts';
import type { Dimension, UnitSymbol } from '../quantity/units.ts';

const typedQuantity = (dimension: Dimension, unitIfMissing?: UnitSymbol) =>
  z
    .string()
    .trim()
    .max(QUANTITY_TEXT_LENGTH_MAX)
    .superRefine((text, context) => {
      const outcome = parseQuantity(text, {
        dimension,
        positive: true,
        ...(unitIfMissing === undefined ? {} : { unitIfMissing }),
      });
      if (!outcome.ok)
        context.addIssue({ code: 'custom', message: quantityFaultSentence(outcome.fault, text) });
    });

export const typedValues = z.strictObject({
  /** Peak load of the display, "66.5 kip". */
  load: typedQuantity('force'),
  /** Load at which the display stood still or fell back at yielding. */
  yieldLoad: typedQuantity('force').exactOptional(),
  /** Elongation after fracture, "12 %". */
  elongation: typedQuantity('strain', '%').exactOptional(),
});
export type TypedValues = z.infer<typeof typedValues>;

export interface TypedNumbers {
  readonly loadN: number;
  readonly yieldLoadN?: number;
  readonly elongationPercent?: number;
}

/** In the core's units. Throws where the texts have not been checked. */
export function typedNumbers({ load, yieldLoad, elongation }: TypedValues): TypedNumbers {
  return {
    loadN: coreOf(load, 'force'),
    ...(yieldLoad === undefined ? {} : { yieldLoadN: coreOf(yieldLoad, 'force') }),
    ...(elongation === undefined ? {} : { elongationPercent: 100 * coreOf(elongation, 'strain') }),
  };
}

function coreOf(text: string, dimension: Dimension): number {
  const outcome = parseQuantity(text, {
    dimension,
    ...(dimension === 'strain' ? { unitIfMissing: '%' as const } : {}),
  });
  if (!outcome.ok) throw new Error(`the typed value "${text}" can't be read any more`);
  return outcome.quantity.core;
}
