/** Work beside the recorder: a thread that answers once and is ended. */
import { Worker } from 'node:worker_threads';

type ThreadName = 'evaluation-thread' | 'self-check-thread' | 'backup-check-thread' | 'learn-thread';

/** In this folder; it ends in .mjs where the program is bundled. */
export const threadFile = (name: ThreadName): URL =>
  new URL(`./${name}.${import.meta.url.endsWith('.ts') ? 'ts' : 'mjs'}`, import.meta.url);

export interface ThreadTask {
  readonly name: ThreadName;
  readonly workerData?: unknown;
  readonly msMax: number;
}

/** Rejects when the thread throws (a bug) or takes longer than anything that ends. */
export function answerOfThread({ name, workerData, msMax }: ThreadTask): Promise<unknown> {
  const worker = new Worker(threadFile(name), { workerData });
  const done = new Promise<unknown>((settle, fail) => {
    worker.once('message', settle);
    worker.once('error', fail);
    worker.once('exit', () => fail(new Error(`the ${name} ended without a result`)));
    setTimeout(() => fail(new Error(`the ${name} took longer than ${msMax} ms`)), msMax).unref();
  });
  return done.finally(() => void worker.terminate());
}
