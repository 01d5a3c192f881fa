/** Proportions of a specimen as a rule pack states them: a width, a turned diameter, a size of pipe, a gauge length in diameters or roots of the section. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { TEXT_LENGTH_MAX } from '../limits.ts';
import {
  QUANTITY_TEXT_LENGTH_MAX,
  parseQuantity,
  quantityFaultSentence,
} from '../quantity/parse-quantity.ts';

const TIMES_MAX = 5;
const DIAMETERS_MAX = 10;

const length = z
  .string()
  .min(1)
  .max(QUANTITY_TEXT_LENGTH_MAX)
  .superRefine((text, context) => {
    const read = parseQuantity(text, { dimension: 'length', positive: true });
    if (!read.ok) context.addIssue({ code: 'custom', message: quantityFaultSentence(read.fault, text) });
  });

const ASKED = ['widthAtLeast', 'widthAtMost', 'diameters', 'outsideDiameterAtMost', 'gaugeLength'] as const;

export const specimenProportion = atFirstUse(() =>
  z
    .strictObject({
      clause: z.string().trim().min(1).max(120),
      says: z.string().trim().min(1).max(TEXT_LENGTH_MAX),
      /** Of the specimen as it was measured. */
      shape: z.enum(['flat', 'round', 'tube', 'pipe-strip']),
      /** Which specimens it is about, by their own measurements; without any, all of the shape. */
      when: z
        .strictObject({
          thicknessOver: length.optional(),
          thicknessUpTo: length.optional(),
          outsideDiameterOver: length.optional(),
          outsideDiameterUpTo: length.optional(),
        })
        .default({}),
      widthAtLeast: length.optional(),
      widthAtMost: length.optional(),
      /** Of a turned specimen: any of them. */
      diameters: z
        .array(z.strictObject({ nominal: length, tolerance: length }))
        .min(1)
        .max(DIAMETERS_MAX)
        .optional(),
      /** Of a whole tube or the pipe of a strip. */
      outsideDiameterAtMost: length.optional(),
      gaugeLength: z
        .strictObject({
          of: z.enum(['diameter', 'root-of-section']),
          /** Any of them: "4" diameters, "5.65" roots of the section. */
          times: z
            .array(z.string().regex(/^\d{1,2}(?:\.\d{1,3})?$/, 'write a plain decimal, for example "5.65"'))
            .min(1)
            .max(TIMES_MAX),
          within: z.string().regex(/^\d{1,2}(?:\.\d{1,2})? %$/, 'write per cent, for example "5 %"'),
        })
        .optional(),
    })
    .refine((asked) => ASKED.some((name) => asked[name] !== undefined), {
      message: `give ${ASKED.map((name) => `"${name}"`).join(', ')} or several of them`,
    }),
);
export type Proportion = z.output<typeof specimenProportion>;
