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

/** One evaluation as kept or as just made: who, when and why where it was kept. */
export const keptEvaluationDocument = z.strictObject({
  evaluationId: z.int().min(1).optional(),
  supersedes: z.int().min(1).nullable().optional(),
  madeWallMs: z.int().min(0).optional(),
  by: z.string().nullable().optional(),
  reason: z.string().nullable().optional(),
  programVersion: z.string().optional(),
  /** As given; an empty object where nothing was. They grow with the method. */
  options: z.looseObject({}),
  evaluation: evaluationDocument,
});
export type KeptEvaluationDocument = z.input<typeof keptEvaluationDocument>;
