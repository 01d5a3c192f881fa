/** An evaluation as one JSON document: results under the standards' symbols, and what was withheld with its reason. */
import type { Evaluation } from '../../core/results/evaluation.ts';
import type { Result } from '../../core/results/result.ts';
import { PROGRAM_VERSION } from './program-version.ts';

export interface EvaluationDocument {
  readonly program: { readonly name: 'gaugemark'; readonly version: string; readonly method: string };
  readonly results: Readonly<Record<string, Omit<Result, 'symbol'>>>;
  readonly withheld: Evaluation['withheld'];
  readonly [further: string]: unknown;
}

/** Everything the evaluation says, plain data; `further` stands beside it (file names, notes of the reader). */
export function evaluationDocument(
  evaluation: Evaluation,
  further: Readonly<Record<string, unknown>>,
): EvaluationDocument {
  const { results, withheld, methodVersion, ...rest } = evaluation;
  return {
    program: { name: 'gaugemark', version: PROGRAM_VERSION, method: methodVersion },
    ...further,
    results: Object.fromEntries(results.map(({ symbol, ...result }) => [symbol, result])),
    withheld,
    ...rest,
  };
}
