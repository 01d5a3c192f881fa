/**
 * A rule pack as a file: the rules of one code (or of one shop) as data.
 *
 * `rules` are alternatives. A specimen is rejected when the conditions of a rule with `"outcome": "reject"` hold;
 * it is accepted when all conditions (`when`) and all comparisons (`require`) of at least one other rule hold;
 * it is undecided while something that matters is not known. The first rule that applies to where it broke is the one
 * that the verdict names, so the more particular rule is written before the more general one.
 *
 * Every `clause` names an entry of `clauses`, and every entry says where it was seen.
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { APPEARANCES, FRACTURE_LOCATIONS, SOUNDNESS } from './fracture.ts';
import { MATERIALS_MAX, QUANTITY_NAMES, materialFile } from './material.ts';
import { QUANTITY_TEXT_LENGTH_MAX } from '../quantity/parse-quantity.ts';
import { printedValue } from './printed-value.ts';
import { sourceStatus } from './source-status.ts';
import { specimenProportion } from './specimen-proportion.ts';

export const PACK_FORMAT = 'gaugemark-rules';
export const PACK_VERSION = 1;

/** More than any code needs; a pack is read by people too. */
const RULES_MAX = 60;
const CLAUSES_MAX = 100;
const LIST_MAX = 30;

export const packId = z
  .string()
  .min(1)
  .max(80)
  .regex(
    /^[a-z0-9][a-z0-9.-]*$/,
    'use lower-case letters, digits, full stops and hyphens, for example "our-shop-2"',
  );
const text = z.string().trim().min(1).max(TEXT_LENGTH_MAX);
const clauseReference = z.string().trim().min(1).max(120);
const factor = z
  .string({ error: 'write the factor as text so that it stays exact, for example "0.95"' })
  .regex(/^\d(?:\.\d{1,6})?$/, 'write a plain decimal between 0 and 2, for example "0.95"')
  .refine((value) => Number(value) > 0 && Number(value) <= 2, 'a factor lies above 0 and is at most 2');

/** Which figure a limit is taken from. */
export const LIMIT_ORIGINS = [
  /** The specified minimum of the base metal; of several base metals the one that `severalBaseMetals` says. */
  'base-metal-minimum',
  /** The specified minimum of that base metal which broke. */
  'broken-base-metal-minimum',
  /** The minimum stated for a weld metal that is weaker on purpose. */
  'weld-metal-minimum',
  /** What the filler class specifies for the quantity; nothing is required where it specifies nothing. */
  'filler-minimum',
  'filler-maximum',
] as const;
export type LimitOrigin = (typeof LIMIT_ORIGINS)[number];

export const COMPARISONS = ['at-least', 'more-than', 'at-most', 'less-than'] as const;
export type Comparison = (typeof COMPARISONS)[number];

const requirement = atFirstUse(() =>
  z
    .strictObject({
      quantity: z.enum(QUANTITY_NAMES),
      comparison: z.enum(COMPARISONS),
      /** A fixed value with its unit, or … */
      limit: z.string().min(1).max(QUANTITY_TEXT_LENGTH_MAX).optional(),
      /** … where the value is taken from, … */
      limitOf: z.enum(LIMIT_ORIGINS).optional(),
      /** … times this. */
      factor: factor.optional(),
    })
    .superRefine((given, context) => {
      if ((given.limit === undefined) === (given.limitOf === undefined)) {
        context.addIssue({
          code: 'custom',
          message: 'give either "limit" (a value with its unit) or "limitOf" (where the value comes from)',
        });
        return;
      }
      if (given.limit === undefined) return;
      const checked = printedValue(given.quantity === 'elongation' ? 'strain' : 'stress').safeParse(
        given.limit,
      );
      if (!checked.success) {
        context.addIssue({
          code: 'custom',
          path: ['limit'],
          message: checked.error.issues[0]?.message ?? 'write a value with its unit',
        });
      }
    }),
);
export type Requirement = z.output<typeof requirement>;

const conditions = atFirstUse(() =>
  z.strictObject({
    broke: z.array(z.enum(FRACTURE_LOCATIONS)).min(1).max(LIST_MAX).optional(),
    fracture: z.array(z.enum(SOUNDNESS)).min(1).max(LIST_MAX).optional(),
    appearance: z.array(z.enum(APPEARANCES)).min(1).max(LIST_MAX).optional(),
    /** Whether the base metals joined have one specified minimum or different ones. */
    baseMetals: z.enum(['one-minimum', 'different-minima']).optional(),
    /** Holds where the construction code lets the weld metal be weaker and its minimum is stated. */
    weldMetalMinimum: z.literal('stated').optional(),
  }),
);
export type Conditions = z.output<typeof conditions>;

const rule = atFirstUse(() =>
  z.strictObject({
    id: packId,
    clause: clauseReference,
    /** The rule in words. */
    says: text,
    outcome: z.enum(['accept', 'reject']).default('accept'),
    when: conditions.default({}),
    require: z.array(requirement).max(LIST_MAX).default([]),
    /** Another way to read an unclear text: shown beside the verdict, never deciding it. */
    otherReading: z.strictObject({ says: text, limitOf: z.enum(LIMIT_ORIGINS) }).optional(),
  }),
);
export type Rule = z.output<typeof rule>;

const strengthSteps = z.strictObject({
  us: printedValue('stress', 'US').optional(),
  si: printedValue('stress', 'SI').optional(),
});
const rounding = z.strictObject({
  clause: clauseReference,
  tie: z.enum(['half-even', 'half-up', 'down']),
  strength: strengthSteps.optional(),
  elongation: printedValue('strain').optional(),
});
export type RoundingFile = z.output<typeof rounding>;

const lengthText = z.string().min(1).max(QUANTITY_TEXT_LENGTH_MAX);
const requiredCount = atFirstUse(() =>
  z.strictObject({
    count: z.int().min(0).max(100),
    clause: clauseReference,
    says: text,
    when: z
      .strictObject({
        outsideDiameterOver: lengthText.optional(),
        outsideDiameterUpTo: lengthText.optional(),
        wallOver: lengthText.optional(),
        wallUpTo: lengthText.optional(),
      })
      .default({}),
  }),
);
export type RequiredCount = z.output<typeof requiredCount>;

const retest = z.strictObject({
  /** Further specimens that replace one failed specimen; all of them must pass. */
  perFailed: z.int().min(1).max(20),
  clause: clauseReference,
  says: text,
});

export const rulePackFile = atFirstUse(() =>
  z.strictObject({
    format: z.literal(PACK_FORMAT, { error: `write "format": "${PACK_FORMAT}"` }),
    version: z.literal(PACK_VERSION, { error: `write "version": ${String(PACK_VERSION)}` }),
    id: packId,
    name: z.string().trim().min(1).max(NAME_LENGTH_MAX),
    /** For sentences; without it the name is used. */
    shortName: z.string().trim().min(1).max(80).optional(),
    edition: z.string().trim().min(1).max(NAME_LENGTH_MAX),
    kind: z.enum(['code', 'practice']),
    /** Other ways to ask for the pack; one that several packs share is ambiguous and refused. */
    aliases: z.array(z.string().trim().min(1).max(80)).max(LIST_MAX).default([]),
    test: z.enum(['transverse', 'all-weld-metal']),
    summary: text,
    status: sourceStatus,
    source: text,
    clauses: z
      .array(z.strictObject({ id: clauseReference, says: text, status: sourceStatus, source: text }))
      .min(1)
      .max(CLAUSES_MAX),
    /** Whose figures are compared: those of the unit the strength was measured in, or always one system's. */
    unitSystem: z.enum(['as-measured', 'US', 'SI']).default('as-measured'),
    severalBaseMetals: z
      .strictObject({ governs: z.enum(['lowest', 'highest']), clause: clauseReference })
      .optional(),
    /** Without it the unrounded value is compared (the absolute method of ASTM E29). */
    rounding: rounding.optional(),
    rules: z.array(rule).min(1).max(RULES_MAX),
    /** A pull that names no calibrated instrument for its force makes the result questionable. */
    asksForCalibration: z.literal(true).optional(),
    specimens: z
      .strictObject({
        required: z.array(requiredCount).max(LIST_MAX).default([]),
        retest: retest.optional(),
        /** A specimen that has other ones makes its result questionable. */
        proportions: z.array(specimenProportion).max(LIST_MAX).default([]),
      })
      .default({ required: [], proportions: [] }),
    /** Tables of the program that the pack uses, by id. */
    baseMetalTables: z.array(z.string().min(1).max(80)).max(LIST_MAX).default([]),
    fillerTables: z.array(z.string().min(1).max(80)).max(LIST_MAX).default([]),
    /** Materials of the pack's own; one with the id of a table's material takes its place. */
    baseMetals: z.array(materialFile).max(MATERIALS_MAX).default([]),
    fillers: z.array(materialFile).max(MATERIALS_MAX).default([]),
    /** Packs whose different answer is told beside the verdict. */
    otherPacks: z.array(packId).max(LIST_MAX).default([]),
    notes: z.array(text).max(LIST_MAX).default([]),
  }),
);
export type RulePackFile = z.output<typeof rulePackFile>;

/** The file that a laboratory's own pack was read from, and the SHA-256 of its bytes on that day. */
export const packOrigin = atFirstUse(() =>
  z.strictObject({
    file: z.string().min(1).max(NAME_LENGTH_MAX),
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
  }),
);
export type PackOrigin = z.output<typeof packOrigin>;

/** Rules that one pull was judged by beside those of its set, whole, so that the verdict can be made again. */
export const chosenRules = z.strictObject({
  pack: rulePackFile,
  /** The file of a laboratory's own pack; absent for one of the program. */
  origin: packOrigin.exactOptional(),
});
export type ChosenRules = z.output<typeof chosenRules>;
