/** The break as a person or the rule marked it, for the evaluation. */
import type { KeptPull } from '../contract/pull-requests.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';

/** The last reading before the mark, which names the first one after the break; nothing where no break is marked. */
export function markedBreak({
  breakSeq,
}: Pick<KeptPull, 'breakSeq'>): Pick<EvaluationOptions, 'fractureIndex'> {
  return breakSeq === null || breakSeq === 0 ? {} : { fractureIndex: breakSeq - 1 };
}
