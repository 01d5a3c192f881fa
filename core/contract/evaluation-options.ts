/** The options of an evaluation as they come from outside. */
import { z } from 'zod';
import type { EvaluationOptions } from '../results/evaluation.ts';

/** More offsets or table points than anybody states; keeps an evaluation from being made endless by its options. */
const LIST_MAX = 50;
const percent = z.number().positive().max(100);
const points = z.array(z.strictObject({ shown: z.number(), actual: z.number() })).max(LIST_MAX);

export const evaluationOptions = z.strictObject({
  offsetsPercent: z.array(percent).max(LIST_MAX).exactOptional(),
  totalExtensionsPercent: z.array(percent).max(LIST_MAX).exactOptional(),
  slopeWindow: z.strictObject({ lowerMpa: z.number(), upperMpa: z.number() }).exactOptional(),
  fractureIndex: z.number().int().nonnegative().exactOptional(),
  strainFrom: z.enum(['extensometer', 'travel']).exactOptional(),
  corrections: z
    .strictObject({
      toe: z.boolean().exactOptional(),
      forceZeroN: z.number().exactOptional(),
      extensionZeroMm: z.number().exactOptional(),
      travelZeroMm: z.number().exactOptional(),
      forceTable: points.exactOptional(),
      extensionTable: points.exactOptional(),
      frameCompliance: z
        .array(z.strictObject({ forceN: z.number(), travelMm: z.number() }))
        .max(LIST_MAX)
        .exactOptional(),
    })
    .exactOptional(),
  hardeningRangePercent: z.strictObject({ from: percent, to: percent }).exactOptional(),
}) satisfies z.ZodType<EvaluationOptions>;
