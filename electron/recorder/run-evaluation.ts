/** Runs evaluations beside the recorder, in threads that each have one at a time. */
import { Worker } from 'node:worker_threads';
import type { Evaluation } from '../../core/results/evaluation.ts';
import {
  EVALUATION_HEAP_MIB_MAX,
  EVALUATION_MS_MAX,
  EVALUATION_THREADS_WAITING_MAX,
  EVALUATION_THREAD_WAITS_MS,
} from '../../core/limits.ts';
import type { EvaluationTask } from './evaluation-thread.ts';
import { threadFile } from './thread-file.ts';

/** Threads that have done their task: to start one takes far longer than most evaluations. */
const waiting = new Map<Worker, NodeJS.Timeout>();

/** Rejects when the thread throws (a bug) or takes longer than anything that ends. */
export function runEvaluation(task: EvaluationTask): Promise<Evaluation> {
  const worker = takenFromWaiting() ?? startedThread();
  return new Promise((settle, fail) => {
    const failed = (reason: unknown): void => {
      clearTimeout(limit);
      void worker.terminate();
      fail(reason instanceof Error ? reason : new Error(String(reason)));
    };
    const ended = (): void => failed(new Error('the evaluation-thread ended without a result'));
    const limit = setTimeout(
      () => failed(new Error(`the evaluation-thread took longer than ${EVALUATION_MS_MAX} ms`)),
      EVALUATION_MS_MAX,
    );
    limit.unref();
    worker.once('error', failed);
    worker.once('exit', ended);
    worker.once('message', (answer: Evaluation) => {
      clearTimeout(limit);
      worker.off('error', failed);
      worker.off('exit', ended);
      letWait(worker);
      // Both sides are this program's own files of one version.
      settle(answer);
    });
    try {
      worker.postMessage(task);
    } catch (error) {
      // What can't be copied into the thread would leave it waiting, and the process with it.
      failed(error);
    }
  });
}

function startedThread(): Worker {
  const worker = new Worker(threadFile('evaluation-thread'), {
    resourceLimits: { maxOldGenerationSizeMb: EVALUATION_HEAP_MIB_MAX },
  });
  // One that ends while it waits is only not there any more.
  worker.on('error', () => forget(worker));
  worker.on('exit', () => forget(worker));
  return worker;
}

function takenFromWaiting(): Worker | undefined {
  const [worker] = waiting.keys();
  if (worker === undefined) return undefined;
  forget(worker);
  worker.ref();
  return worker;
}

/** A thread that waits holds no process open, and not for long. */
function letWait(worker: Worker): void {
  worker.unref();
  if (waiting.size >= EVALUATION_THREADS_WAITING_MAX) {
    void worker.terminate();
    return;
  }
  const end = setTimeout(() => {
    forget(worker);
    void worker.terminate();
  }, EVALUATION_THREAD_WAITS_MS);
  end.unref();
  waiting.set(worker, end);
}

function forget(worker: Worker): void {
  clearTimeout(waiting.get(worker));
  waiting.delete(worker);
}
