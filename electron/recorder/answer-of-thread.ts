/** Work beside the recorder: a thread that answers once and is ended. */
import { Worker } from 'node:worker_threads';
import { type ThreadName, threadFile } from './thread-file.ts';

export interface ThreadTask {
  readonly name: ThreadName;
  readonly workerData?: unknown;
  readonly msMax: number;
  /** Told before its answer: true where it was only told how far the work is. */
  readonly isProgress?: (told: unknown) => boolean;
  /** Ends the thread; the answer is then rejected with its reason. */
  readonly signal?: AbortSignal;
}

/** The thread was ended at its time limit: a bug, or a computer that is too slow for what it was given. */
export class ThreadTimeUp extends Error {
  override readonly name = 'ThreadTimeUp';
}

/** Rejects when the thread throws (a bug), is ended by the signal, or with ThreadTimeUp at its time limit. */
export function answerOfThread({
  name,
  workerData,
  msMax,
  isProgress = () => false,
  signal,
}: ThreadTask): Promise<unknown> {
  const worker = new Worker(threadFile(name), { workerData });
  const done = new Promise<unknown>((settle, fail) => {
    worker.on('message', (told: unknown) => {
      if (!isProgress(told)) settle(told);
    });
    worker.once('error', fail);
    worker.once('exit', () => fail(new Error(`the ${name} ended without a result`)));
    setTimeout(() => fail(new ThreadTimeUp(`the ${name} took longer than ${msMax} ms`)), msMax).unref();
    signal?.addEventListener('abort', () => fail(signal.reason as Error), { once: true });
  });
  return done.finally(() => void worker.terminate());
}
