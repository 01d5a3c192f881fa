/**
 * A set as people fill it in: the specimens of one purpose, judged by one rule pack. Quantities are text with their
 * unit. What depends on more than one field is checked in `set-faults.ts`.
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { DECISION_RULES } from '../acceptance/decision-rule.ts';
import { packOrigin, rulePackFile } from '../acceptance/rule-pack.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { QUANTITY_TEXT_LENGTH_MAX } from '../quantity/parse-quantity.ts';

/** A coupon gives a handful of specimens, a class exercise one for each pupil. */
export const SET_MEMBERS_MAX = 500;
const BASE_METALS_MAX = 10;
const DOCUMENTS_MAX = 50;

export const SET_PURPOSES = [
  'procedure-qualification',
  'welder-qualification',
  'welder-requalification',
  'filler-metal-test',
  'production-coupon',
  'class-exercise',
] as const;
export type SetPurpose = (typeof SET_PURPOSES)[number];

export const PURPOSE_WORDS: Readonly<Record<SetPurpose, string>> = {
  'procedure-qualification': 'procedure qualification',
  'welder-qualification': 'welder qualification',
  'welder-requalification': 'welder requalification',
  'filler-metal-test': 'filler-metal lot or classification test',
  'production-coupon': 'production coupon',
  'class-exercise': 'class exercise',
};

export const SPECIMEN_TYPES = [
  'transverse-flat',
  'transverse-turned',
  'full-section-pipe',
  'pipe-strip',
  'all-weld-metal-round',
  'longitudinal',
] as const;
export type SpecimenType = (typeof SPECIMEN_TYPES)[number];

export const SPECIMEN_TYPE_WORDS: Readonly<Record<SpecimenType, string>> = {
  'transverse-flat': 'transverse, reduced section, flat',
  'transverse-turned': 'transverse, turned',
  'full-section-pipe': 'full section of pipe',
  'pipe-strip': 'strip from pipe',
  'all-weld-metal-round': 'all weld metal, round',
  longitudinal: 'longitudinal',
};

export const DOCUMENT_KINDS = ['wps', 'pqr', 'welder-record', 'work-order', 'drawing', 'other'] as const;
export const DOCUMENT_WORDS: Readonly<Record<(typeof DOCUMENT_KINDS)[number], string>> = {
  wps: 'welding procedure specification',
  pqr: 'procedure qualification record',
  'welder-record': 'welder qualification record',
  'work-order': 'work order',
  drawing: 'drawing',
  other: 'document',
};

const name = z.string().trim().min(1).max(NAME_LENGTH_MAX);
const quantity = z.string().trim().min(1).max(QUANTITY_TEXT_LENGTH_MAX);

export const setBaseMetal = z.strictObject({
  /** As the rule pack's tables call it, or any name where `minimum` is given. */
  designation: name,
  /** Specified minimum tensile strength where the tables don't have it, as its specification prints it. */
  minimum: quantity.optional(),
  heat: name.optional(),
  lot: name.optional(),
});

export const setForm = atFirstUse(() =>
  z.strictObject({
    name,
    purpose: z.enum(SET_PURPOSES),
    rulePackId: z.string().min(1).max(80),
    baseMetals: z.array(setBaseMetal).max(BASE_METALS_MAX).default([]),
    filler: z
      .strictObject({
        classification: name,
        lot: name.optional(),
        heat: name.optional(),
        /** Specified minima where the tables don't have the class. */
        minimum: quantity.optional(),
        yieldMinimum: quantity.optional(),
        elongationMinimum: quantity.optional(),
      })
      .optional(),
    /** Of a weld metal weaker on purpose, where the construction code provides for it. */
    weldMetalMinimum: quantity.optional(),
    specimenType: z.enum(SPECIMEN_TYPES),
    /** In the shop's words: "SMAW", "GMAW spray", "TIG root, stick fill". */
    process: name.optional(),
    joint: name.optional(),
    position: name.optional(),
    thickness: quantity.optional(),
    outsideDiameter: quantity.optional(),
    wall: quantity.optional(),
    welder: name.optional(),
    customer: name.optional(),
    documents: z
      .array(z.strictObject({ kind: z.enum(DOCUMENT_KINDS), number: name }))
      .max(DOCUMENTS_MAX)
      .default([]),
    /** Without it the number of the rule pack counts; a lower one than that only with `fewerReason`. */
    requiredCount: z.int().min(1).max(SET_MEMBERS_MAX).optional(),
    /** Why fewer specimens than the rules ask for are enough: stated as a deviation wherever the set is judged. */
    fewerReason: z.string().trim().min(1).max(TEXT_LENGTH_MAX).optional(),
    /** Whose printed figures count; without it those of the unit that was measured in. */
    system: z.enum(['US', 'SI']).optional(),
    decisionRule: z.enum(DECISION_RULES).optional(),
    guardFactor: z.string().max(20).optional(),
    notes: z.string().max(TEXT_LENGTH_MAX).optional(),
  }),
);
export type SetForm = z.output<typeof setForm>;

/**
 * A set as it is kept: the form, and the whole rule pack as it was on that day, so that the same verdict can be made
 * again years later whatever packs the program has then.
 */
export const frozenSet = z.strictObject({
  form: setForm,
  pack: rulePackFile,
  /** The file of a laboratory's own pack; absent for one of the program. */
  origin: packOrigin.optional(),
  /** Those of `pack.otherPacks` that are a laboratory's own; the program's are in the program. */
  otherPacks: z.array(rulePackFile).optional(),
});
export type FrozenSet = z.output<typeof frozenSet>;
