/** Runs one evaluation beside the recorder. */
import type { Evaluation } from '../../core/results/evaluation.ts';
import { EVALUATION_MS_MAX } from '../../core/limits.ts';
import { answerOfThread } from './answer-of-thread.ts';
import type { EvaluationTask } from './evaluation-thread.ts';

export async function runEvaluation(task: EvaluationTask): Promise<Evaluation> {
  const answer = await answerOfThread({
    name: 'evaluation-thread',
    workerData: task,
    msMax: EVALUATION_MS_MAX,
  });
  // Both sides are this program's own files of one version.
  return answer as Evaluation;
}
