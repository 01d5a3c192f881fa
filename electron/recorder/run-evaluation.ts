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
import { RequestRefused } from './request-refused.ts';
import { threadFile } from './thread-file.ts';

/** Threads that have done their task: to start one takes far longer than most evaluations. */
const waiting = new Map<Worker, NodeJS.Timeout>();

/**
 * Rejects when the thread throws (a bug); refused where it takes longer than anything that ends, or more of the engine's heap
 * than `heapMib`. Either ends that thread alone.
 */
export function runEvaluation(task: EvaluationTask, heapMib = EVALUATION_HEAP_MIB_MAX): Promise<Evaluation> {
  const worker = takenFromWaiting(heapMib) ?? startedThread(heapMib);
  return new Promise((settle, fail) => {
    const failed = (reason: unknown): void => {
      clearTimeout(limit);
      void worker.terminate();
      fail(isOutOfMemory(reason) ? outOfMemory(heapMib) : errorOf(reason));
    };
    const ended = (): void => failed(new Error('the evaluation-thread ended without a result'));
    const limit = setTimeout(() => failed(tookTooLong()), EVALUATION_MS_MAX);
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

const errorOf = (reason: unknown): Error => (reason instanceof Error ? reason : new Error(String(reason)));

const isOutOfMemory = (reason: unknown): boolean =>
  reason instanceof Error && 'code' in reason && reason.code === 'ERR_WORKER_OUT_OF_MEMORY';

const outOfMemory = (heapMib: number): RequestRefused =>
  new RequestRefused(
    'evaluation-out-of-memory',
    `The evaluation needed more memory than it may take (${heapMib} MiB), so it was ended. What is recorded is safe, and recording goes on. Evaluate the pull again; if that ends so again, export the pull and report it with its file.`,
  );

const tookTooLong = (): RequestRefused =>
  new RequestRefused(
    'evaluation-too-long',
    `The evaluation had no result after ${EVALUATION_MS_MAX / 1000} s, so it was ended. What is recorded is safe, and recording goes on. Evaluate the pull again when the computer has less to do; if that ends so again, export the pull and report it with its file.`,
  );

function startedThread(heapMib: number): Worker {
  const worker = new Worker(threadFile('evaluation-thread'), {
    resourceLimits: { maxOldGenerationSizeMb: heapMib },
  });
  // One that ends while it waits is only not there any more.
  worker.on('error', () => forget(worker));
  worker.on('exit', () => forget(worker));
  return worker;
}

function takenFromWaiting(heapMib: number): Worker | undefined {
  const worker = [...waiting.keys()].find((its) => its.resourceLimits?.maxOldGenerationSizeMb === heapMib);
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
