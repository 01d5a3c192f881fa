/** An evaluation inside an exported document: results with their working, what was withheld, and every further fact. */
import { z } from 'zod';
import { UNITS, type UnitSymbol } from '../../quantity/units.ts';

const unit = z.enum(Object.keys(UNITS) as [UnitSymbol, ...UnitSymbol[]]);
const index = z.int().min(0);

const working = z.looseObject({
  formula: z.string(),
  inputs: z.array(
    z.looseObject({ symbol: z.string(), name: z.string(), value: z.number(), unit, from: z.string() }),
  ),
  substituted: z.string(),
  source: z
    .string()
    .describe('clause, handbook, or "common practice, no source"; says where it is from memory'),
  steps: z.array(z.string()).optional(),
});

const uncertainty = z.looseObject({
  standard: z.number(),
  expanded: z.number(),
  coverageFactor: z.number(),
  degreesOfFreedom: z.number().optional(),
  budget: z.array(
    z.looseObject({
      source: z.string(),
      standard: z.number(),
      unit,
      sensitivity: z.number(),
      contribution: z.number(),
      distribution: z.enum(['normal', 'rectangular', 'triangular']),
    }),
  ),
});

export const resultDocument = z.looseObject({
  symbol: z.string().describe("the standards' symbol: Fm, Rm, Rp0.2, A, …"),
  name: z.string(),
  value: z.number().describe('unrounded, in `unit`'),
  unit,
  rounded: z.array(
    z.looseObject({ value: z.number(), text: z.string(), unit, step: z.number(), rule: z.string() }),
  ),
  method: z.string(),
  working,
  atIndex: index.optional().describe('number of the reading that the value rests on'),
  uncertainty: uncertainty.optional(),
  remarks: z.array(z.string()).optional(),
});

export const withheldDocument = z.looseObject({
  symbol: z.string(),
  name: z.string(),
  reason: z.string().describe('one sentence: why there is no value'),
  code: z.string(),
});

/** Evaluations gain facts with every version of the method: what isn't named here is passed on. */
export const evaluationDocument = z.looseObject({
  results: z.array(resultDocument),
  withheld: z.array(withheldDocument),
  marks: z.looseObject({
    loadingStart: index.optional(),
    upperYield: index.optional(),
    lowerYield: index.optional(),
    proof: index.optional(),
    maximumForce: index.optional(),
    fracture: index.optional(),
    extensionTrustedUntil: index.optional(),
  }),
  areaMm2: z.number().optional(),
  remarks: z.array(z.string()),
  methodVersion: z.string(),
});

export const keptValuesDocument = z.array(z.strictObject({ symbol: z.string(), value: z.number(), unit }));

/** As it was kept: its values then, and the method of then. Nothing of it is worked out anew. */
const kept = z.strictObject({
  evaluationId: z.int().min(1),
  /** Null: it took the place of the pull as recorded. */
  supersedes: z.int().min(1).nullable(),
  specimenId: z.int().min(1),
  keptWallMs: z.int().min(0),
  by: z.string().nullable(),
  reason: z.string(),
  programVersion: z.string(),
  methodVersion: z.string(),
  values: keptValuesDocument,
  sources: z.array(z.strictObject({ what: z.string(), name: z.string(), sha256: z.string() })),
});

/** One evaluation: as it was kept, or worked out for this file by what stands, or both. */
export const keptEvaluationDocument = z.strictObject({
  kept: kept.nullable().describe('null where the pull stands as recorded'),
  /** As given; an empty object where nothing was. They grow with the method. */
  options: z.looseObject({}),
  evaluation: evaluationDocument
    .nullable()
    .describe('worked out by the program that wrote the file; null for what was superseded'),
});
export type KeptEvaluationDocument = z.infer<typeof keptEvaluationDocument>;
