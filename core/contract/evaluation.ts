/** The evaluation as it crosses between processes: the data of core/results/result.ts, checked. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { type UnitSymbol, UNITS } from '../quantity/units.ts';
import type { Evaluation } from '../results/evaluation.ts';

const unitSymbol = z.custom<UnitSymbol>(
  (v) => typeof v === 'string' && Object.hasOwn(UNITS, v),
  'unknown unit',
);

const working = atFirstUse(() =>
  z.looseObject({
    formula: z.string(),
    inputs: z.array(
      z.looseObject({
        symbol: z.string(),
        name: z.string(),
        value: z.number(),
        unit: unitSymbol,
        from: z.string(),
      }),
    ),
    substituted: z.string(),
    source: z.string(),
    steps: z.array(z.string()).optional(),
  }),
);

export const resultMessage = atFirstUse(() =>
  z.looseObject({
    symbol: z.string(),
    name: z.string(),
    value: z.number(),
    unit: unitSymbol,
    rounded: z.array(
      z.looseObject({
        value: z.number(),
        text: z.string(),
        unit: unitSymbol,
        step: z.number(),
        rule: z.string(),
      }),
    ),
    method: z.string(),
    working,
    atIndex: z.number().int().nonnegative().optional(),
    remarks: z.array(z.string()).optional(),
  }),
);

export const withheldMessage = z.looseObject({
  symbol: z.string(),
  name: z.string(),
  reason: z.string(),
  code: z.string(),
});

const evaluationShape = z.looseObject({
  results: z.array(resultMessage),
  withheld: z.array(withheldMessage),
});

/** Loose on purpose: evaluations gain facts with every version, and what isn't known here is passed on. */
export const evaluationMessage = z.custom<Evaluation>(
  (value) => evaluationShape.safeParse(value).success,
  'is not an evaluation',
);
