/** The verdict on a specimen whose strength, yield and elongation come from an evaluated curve. */
import type { Evaluation } from '../results/evaluation.ts';
import { type JudgeOutcome, type JudgeRequest, judgeAsked } from './judge-request.ts';
import { measuredFromResults } from './measured-from-results.ts';
import type { UnitSystem } from './printed-value.ts';
import type { RulePack } from './read-rule-pack.ts';

export interface JudgeEvaluationInput {
  readonly pack: RulePack;
  /** Fracture, materials, minima, decision rule; values that are measured are taken from the evaluation. */
  readonly request: Omit<JudgeRequest, 'strength' | 'yield' | 'elongation'>;
  readonly evaluation: Pick<Evaluation, 'results'>;
  /** Unit system in which the specimen was measured and is judged, unless the request or the pack says another. */
  readonly measuredIn: UnitSystem;
  /** Packs that may be asked for a different answer. */
  readonly packs: readonly RulePack[];
}

/**
 * Judges an evaluation. The expanded uncertainty of Rm is taken from the evaluation where the request states none, so
 * that the probability of a false accept is shown whenever it can be.
 */
export function judgeEvaluation(input: JudgeEvaluationInput): JudgeOutcome {
  const { pack, request, evaluation, packs } = input;
  const fixed = pack.file.unitSystem;
  const system = fixed === 'as-measured' ? (request.system ?? input.measuredIn) : fixed;
  const uncertainty = evaluation.results.find((result) => result.symbol === 'Rm')?.uncertainty;
  const withUncertainty =
    request.uncertainty !== undefined || uncertainty === undefined
      ? request
      : {
          ...request,
          uncertainty: `${String(Number(uncertainty.expanded.toPrecision(9)))} MPa`,
          coverageFactor: request.coverageFactor ?? String(Number(uncertainty.coverageFactor.toPrecision(6))),
        };
  return judgeAsked(pack, withUncertainty, packs, measuredFromResults(evaluation.results, system));
}
