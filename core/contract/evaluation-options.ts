/** The options of an evaluation as they come from outside. */
import { z } from 'zod';
import { CONVERSION_RULES } from '../results/elongation-conversion.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';
import { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../results/force-uncertainty.ts';
import { ARC_FORMS } from '../results/pipe-strip-area.ts';
import { FINAL_SECTION_FORMS } from '../results/reduction-of-area.ts';
import { ROUNDING_RULES } from '../results/rounding.ts';
import { SECTION_RULES } from '../results/section-rule.ts';

/** More offsets or table points than anybody states; keeps an evaluation from being made endless by its options. */
const LIST_MAX = 50;
const percent = z.number().positive().max(100);
const points = z.array(z.strictObject({ shown: z.number(), actual: z.number() })).max(LIST_MAX);

export const evaluationOptions = z.strictObject({
  offsetsPercent: z.array(percent).max(LIST_MAX).exactOptional(),
  totalExtensionsPercent: z.array(percent).max(LIST_MAX).exactOptional(),
  slopeWindow: z.strictObject({ lowerMpa: z.number(), upperMpa: z.number() }).exactOptional(),
  slopeFrom: z.enum(['loading', 'loop']).exactOptional(),
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
  section: z.enum(SECTION_RULES).exactOptional(),
  arcForm: z.enum(ARC_FORMS).exactOptional(),
  rounding: z.enum(ROUNDING_RULES).exactOptional(),
  finalSection: z.enum(FINAL_SECTION_FORMS).exactOptional(),
  requiredElongationPercent: percent.exactOptional(),
  elongationOn: z
    .strictObject({ gaugeLengthMm: z.number().positive().max(1e5), rule: z.enum(CONVERSION_RULES) })
    .exactOptional(),
  measuring: z
    .strictObject({
      forceClass: z.enum(FORCE_CLASSES).exactOptional(),
      forceUncertaintyPercent: percent.exactOptional(),
      forceResolutionN: z.number().positive().max(1e9).exactOptional(),
      extensometerClass: z.enum(EXTENSOMETER_CLASSES).exactOptional(),
    })
    .exactOptional(),
  hardeningRangePercent: z.strictObject({ from: percent, to: percent }).exactOptional(),
}) satisfies z.ZodType<EvaluationOptions>;
