/** The options that a pull is evaluated by whenever nobody asks for others. */
import type { KeptEvaluation } from '../contract/evaluation-requests.ts';
import type { KeptPull } from '../contract/pull-requests.ts';
import { markedBreak } from '../pull/marked-break.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';

/** Those of the evaluation that stands, with the break as it was marked where it says nothing else. */
export function standingOptions(
  pull: Pick<KeptPull, 'breakSeq'>,
  standing: Pick<KeptEvaluation, 'options'> | null,
): EvaluationOptions {
  return { ...markedBreak(pull), ...standing?.options };
}
