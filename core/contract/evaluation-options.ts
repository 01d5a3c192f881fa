/** The options of an evaluation as they come from outside: bounded, and in an order that can be worked with. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { type ChosenRules, chosenRules } from '../acceptance/rule-pack.ts';
import { type ImportPlan, importPlan } from '../exchange/import/import-plan.ts';
import { STRENGTH_MPA_MAX } from '../limits.ts';
import { type ReadoutProfile, readoutProfile } from './readout-profile.ts';
import { MATERIAL_KINDS } from '../results/elongation-conversion.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';
import { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../results/force-uncertainty.ts';
import { ARC_FORMS } from '../results/pipe-strip-area.ts';
import { FINAL_SECTION_FORMS } from '../results/reduction-of-area.ts';
import { ROUNDING_RULES } from '../results/rounding.ts';
import { SECTION_RULES } from '../results/section-rule.ts';

/** More offsets than anybody states; keeps an evaluation from being made endless by its options. */
const LIST_MAX = 50;
/** Points of a calibration table or a blank run; every reading is looked up in it, and calibrations have ten. */
export const TABLE_POINTS_MAX = 200;
/** Beyond any frame and any travel of one: a value above is a slip of the unit. */
const FORCE_N_MAX = 1e9;
const LENGTH_MM_MAX = 1e6;

const percent = z.number().positive().max(100);
const forceN = z.number().min(-FORCE_N_MAX).max(FORCE_N_MAX);
const lengthMm = z.number().min(-LENGTH_MM_MAX).max(LENGTH_MM_MAX);
const stressMpa = z.number().min(0).max(STRENGTH_MPA_MAX);

const once = (values: readonly number[]): boolean => new Set(values).size === values.length;
const ONCE = 'the same value stands here twice; leave one of them';
/** No extensometer tells a smaller offset; its symbol could not be written either. */
const STRAIN_PERCENT_MIN = 0.001;
/** Symbols (Rp0.2) carry so many digits; two values that share them would be two results of one name. */
const SYMBOL_DIGITS = 4;
const percents = z
  .array(percent.min(STRAIN_PERCENT_MIN))
  .max(LIST_MAX)
  .refine(once, ONCE)
  .refine(
    (values) => !once(values) || once(values.map((value) => Number(value.toPrecision(SYMBOL_DIGITS)))),
    'two values here are the same to four digits and would give two results of one name; leave one of them',
  );

const ascending = (values: readonly number[]): boolean =>
  values.every((value, i) => i === 0 || value > (values[i - 1] ?? Infinity));

/** Beyond this many units per unit a table is no calibration but a slip of a digit, and arithmetic would overflow. */
const STEEPNESS_MAX = 1_000;

/** False where y changes by more than `STEEPNESS_MAX` per x, or, where it must grow, doesn't. */
const tame = (points: readonly (readonly [number, number])[], mustGrow: boolean): boolean =>
  points.every(([x, y], i) => {
    const before = points[i - 1];
    if (before === undefined) return true;
    const steepness = (y - before[1]) / (x - before[0]);
    return Math.abs(steepness) <= STEEPNESS_MAX && (!mustGrow || steepness > 0);
  });

const table = (entry: typeof forceN) =>
  z
    .array(z.strictObject({ shown: entry, actual: entry }))
    .min(2)
    .max(TABLE_POINTS_MAX)
    .refine(
      (points) => ascending(points.map((p) => p.shown)),
      'what the readout showed must grow from point to point; put the points in that order, each once',
    )
    .refine(
      (points) =>
        !ascending(points.map((p) => p.shown)) ||
        tame(
          points.map((p) => [p.shown, p.actual]),
          true,
        ),
      'the actual value must grow with what was shown, by no more than 1000 units per unit; look for a wrong sign, digit or unit',
    );

const blankRun = atFirstUse(() =>
  z
    .array(z.strictObject({ forceN, travelMm: lengthMm }))
    .min(2)
    .max(TABLE_POINTS_MAX)
    .refine(
      (points) => ascending(points.map((p) => p.forceN)),
      'the force of a blank run must grow from point to point; put the points in that order, each once',
    )
    .refine(
      (points) =>
        !ascending(points.map((p) => p.forceN)) ||
        tame(
          points.map((p) => [p.forceN, p.travelMm]),
          false,
        ),
      'the travel of a blank run changes by more than 1000 mm per N; look for a wrong digit or unit',
    ),
);

/** The program gives a whole profile; what a file leaves out of one gets its defaults here. */
const lineFormat = readoutProfile as unknown as z.ZodType<ReadoutProfile, ReadoutProfile>;

/** The same of a plan by which a file is read. */
const filePlan = importPlan as unknown as z.ZodType<ImportPlan, ImportPlan>;

/** The same of a rule pack. */
const judgedBy = chosenRules as unknown as z.ZodType<ChosenRules, ChosenRules>;

const corrections = atFirstUse(() =>
  z.strictObject({
    toe: z.boolean().exactOptional(),
    forceZeroN: forceN.exactOptional(),
    extensionZeroMm: lengthMm.exactOptional(),
    travelZeroMm: lengthMm.exactOptional(),
    forceTable: table(forceN).exactOptional(),
    extensionTable: table(lengthMm).exactOptional(),
    frameCompliance: blankRun.exactOptional(),
  }),
);

export const evaluationOptions: z.ZodType<EvaluationOptions, EvaluationOptions> = atFirstUse(() =>
  z.strictObject({
    lineFormat: lineFormat.exactOptional(),
    importPlan: filePlan.exactOptional(),
    judgedBy: judgedBy.exactOptional(),
    offsetsPercent: percents.exactOptional(),
    extensionsUnderLoadPercent: percents.exactOptional(),
    slopeWindow: z
      .strictObject({ lowerMpa: stressMpa, upperMpa: stressMpa })
      .refine(
        ({ lowerMpa, upperMpa }) => upperMpa > lowerMpa,
        'the upper stress of the window must lie above the lower one',
      )
      .exactOptional(),
    slopeFrom: z.enum(['loading', 'loop']).exactOptional(),
    fractureIndex: z.number().int().nonnegative().exactOptional(),
    strainFrom: z.enum(['extensometer', 'travel']).exactOptional(),
    corrections: corrections.exactOptional(),
    section: z.enum(SECTION_RULES).exactOptional(),
    sectionForm: z.enum(ARC_FORMS).exactOptional(),
    rounding: z.enum(ROUNDING_RULES).exactOptional(),
    finalSection: z.enum(FINAL_SECTION_FORMS).exactOptional(),
    requiredElongationPercent: percent.exactOptional(),
    convertElongation: z
      .strictObject({ gaugeLengthMm: z.number().positive().max(1e5), materialKind: z.enum(MATERIAL_KINDS) })
      .exactOptional(),
    measuring: z
      .strictObject({
        readoutClass: z.enum(FORCE_CLASSES).exactOptional(),
        readoutUncertaintyPercent: percent.exactOptional(),
        readoutResolutionN: z.number().positive().max(FORCE_N_MAX).exactOptional(),
        extensometerClass: z.enum(EXTENSOMETER_CLASSES).exactOptional(),
      })
      .exactOptional(),
    hardeningRangePercent: z
      .strictObject({ from: percent, to: percent })
      .refine(({ from, to }) => to > from, 'the end of the strain range must lie above its beginning')
      .exactOptional(),
  }),
);
