/** Work beside the recorder: a thread that answers once and is ended. */
import { Worker } from 'node:worker_threads';

export interface ThreadTask {
  /** File in this folder without its ending; it ends in .mjs where the program is bundled. */
  readonly name: 'evaluation-thread' | 'self-check-thread' | 'backup-check-thread';
  readonly workerData?: unknown;
  readonly msMax: number;
}

/** Rejects when the thread throws (a bug) or takes longer than anything that ends. */
export function answerOfThread({ name, workerData, msMax }: ThreadTask): Promise<unknown> {
  const ending = import.meta.url.endsWith('.ts') ? 'ts' : 'mjs';
  const worker = new Worker(new URL(`./${name}.${ending}`, import.meta.url), { workerData });
  const done = new Promise<unknown>((settle, fail) => {
    worker.once('message', settle);
    worker.once('error', fail);
    worker.once('exit', () => fail(new Error(`the ${name} ended without a result`)));
    setTimeout(() => fail(new Error(`the ${name} took longer than ${msMax} ms`)), msMax).unref();
  });
  return done.finally(() => void worker.terminate());
}
