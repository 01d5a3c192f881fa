/** Runs one evaluation beside the recorder. */
import { Worker } from 'node:worker_threads';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { EVALUATION_MS_MAX } from '../../core/limits.ts';
import type { EvaluationTask } from './evaluation-thread.ts';

/** Rejects when the evaluation throws (a bug) or takes longer than anything that ends. */
export function runEvaluation(task: EvaluationTask): Promise<Evaluation> {
  const file = import.meta.url.endsWith('.ts') ? './evaluation-thread.ts' : './evaluation-thread.mjs';
  const worker = new Worker(new URL(file, import.meta.url), { workerData: task });
  const done = new Promise<Evaluation>((settle, fail) => {
    worker.once('message', settle);
    worker.once('error', fail);
    worker.once('exit', () => fail(new Error('the evaluation ended without a result')));
    setTimeout(
      () => fail(new Error(`the evaluation took longer than ${EVALUATION_MS_MAX} ms`)),
      EVALUATION_MS_MAX,
    ).unref();
  });
  return done.finally(() => void worker.terminate());
}
