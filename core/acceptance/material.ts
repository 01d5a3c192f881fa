/** A base metal or a filler class with its specified minima, and the tables they come in. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { type UnitSystem, type PrintedValue, printedValue, readPrintedValue } from './printed-value.ts';
import { type SourceStatus, sourceStatus } from './source-status.ts';

/** Materials of one table or pack; the longest published list (QW/QB-422) has about 1 500 rows. */
export const MATERIALS_MAX = 2_000;
const ALIASES_MAX = 30;

export const materialId = z
  .string()
  .trim()
  .min(1)
  .max(80)
  .regex(
    /^[\p{L}\p{N}][\p{L}\p{N}./ +-]*$/u,
    'use letters, digits, full stops, slashes, blanks and hyphens only',
  );
const text = z.string().trim().min(1).max(TEXT_LENGTH_MAX);

function range(dimension: 'stress' | 'strain', system?: UnitSystem) {
  const value = printedValue(dimension, system);
  return z.strictObject({ min: value.optional(), max: value.optional() }).superRefine((given, context) => {
    if (given.min === undefined && given.max === undefined) {
      context.addIssue({ code: 'custom', message: 'give "min", "max" or both' });
      return;
    }
    if (given.min === undefined || given.max === undefined) return;
    if (printedFaulty(given.min) || printedFaulty(given.max)) return;
    const [min, max] = [readPrintedValue(given.min), readPrintedValue(given.max)];
    if (min.unit !== max.unit) {
      context.addIssue({
        code: 'custom',
        message: `"min" is in ${min.unit} and "max" in ${max.unit}; print both in one unit`,
      });
    } else if (min.exact.compare(max.exact) > 0) {
      context.addIssue({ code: 'custom', message: `"min" (${given.min}) is above "max" (${given.max})` });
    }
  });
}

function printedFaulty(value: string): boolean {
  try {
    readPrintedValue(value);
    return false;
  } catch {
    return true;
  }
}

const origin = { status: sourceStatus.optional(), source: text.optional(), note: text.optional() };
const strengthFile = z
  .strictObject({ us: range('stress', 'US').optional(), si: range('stress', 'SI').optional(), ...origin })
  .refine((given) => given.us !== undefined || given.si !== undefined, {
    message: 'give the figure in "us", in "si" or in both, as the specification prints it',
  });
const elongationFile = z.strictObject({ percent: range('strain'), ...origin });

export const materialFile = atFirstUse(() =>
  z.strictObject({
    id: materialId,
    name: z.string().trim().min(1).max(NAME_LENGTH_MAX),
    /** Other designations. One that several materials share is ambiguous and refused when asked for. */
    aliases: z.array(materialId).max(ALIASES_MAX).default([]),
    tensile: strengthFile.optional(),
    yield: strengthFile.optional(),
    elongation: elongationFile.optional(),
    pNumber: z.string().max(40).optional(),
    note: text.optional(),
    status: sourceStatus.default('own'),
    source: text.default('stated by the laboratory'),
  }),
);
export type MaterialFile = z.output<typeof materialFile>;

export const materialTableFile = atFirstUse(() =>
  z.strictObject({
    id: z.string().min(1).max(80),
    name: z.string().min(1).max(NAME_LENGTH_MAX),
    edition: z.string().min(1).max(NAME_LENGTH_MAX),
    materials: z.array(materialFile).min(1).max(MATERIALS_MAX),
  }),
);
export type MaterialTable = z.output<typeof materialTableFile>;

export const QUANTITY_NAMES = ['tensile-strength', 'yield-strength', 'elongation'] as const;
export type QuantityName = (typeof QUANTITY_NAMES)[number];

export const QUANTITY_WORDS: Readonly<Record<QuantityName, string>> = {
  'tensile-strength': 'tensile strength',
  'yield-strength': 'yield strength',
  elongation: 'elongation',
};

export interface MaterialLimit extends PrintedValue {
  readonly status: SourceStatus;
  readonly source: string;
}

/**
 * The limit that a material's specification prints for a quantity in one unit system, and in the other where that
 * system has none (`otherSystem` is true then). Null where the specification states nothing.
 */
export function materialLimit(
  material: MaterialFile,
  quantity: QuantityName,
  end: 'min' | 'max',
  system: UnitSystem,
): (MaterialLimit & { readonly otherSystem: boolean }) | null {
  if (quantity === 'elongation') {
    const printed = material.elongation?.percent[end];
    return printed === undefined
      ? null
      : { ...withOrigin(printed, material, material.elongation), otherSystem: false };
  }
  const property = quantity === 'tensile-strength' ? material.tensile : material.yield;
  const [own, other] = system === 'US' ? [property?.us, property?.si] : [property?.si, property?.us];
  const printed = own?.[end] ?? other?.[end];
  if (printed === undefined) return null;
  return { ...withOrigin(printed, material, property), otherSystem: own?.[end] === undefined };
}

function withOrigin(
  printed: string,
  material: MaterialFile,
  property: { readonly status?: SourceStatus | undefined; readonly source?: string | undefined } | undefined,
): MaterialLimit {
  return {
    ...readPrintedValue(printed),
    status: property?.status ?? material.status,
    source: property?.source ?? material.source,
  };
}
