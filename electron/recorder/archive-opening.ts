/**
 * The beginning of the archive's thread, by itself: the recorder's entry starts it before it reads the rest of its own
 * program, and both get ready side by side.
 */
import { Worker } from 'node:worker_threads';
import { threadFile } from './thread-file.ts';
import type { ThreadTrouble } from './thread-trouble.ts';

/** Number −1 answers the opening itself. */
export type ThreadAnswer =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly id: number; readonly ok: false; readonly trouble: ThreadTrouble };

export interface ThreadStart {
  readonly path: string;
  readonly programVersion: string;
  readonly makeFolder: boolean;
  readonly purpose: 'record' | 'read';
}

export interface ArchiveOpening {
  readonly path: string;
  readonly worker: Worker;
  /** Seen by the thread in the middle of its work. */
  readonly stop: Int32Array;
  /** Whether the archive is open, and if not, why; the thread says nothing else before it is asked. */
  readonly answer: Promise<ThreadAnswer | { readonly ended: string }>;
}

export function beginOpening({ path, programVersion, makeFolder, purpose }: ThreadStart): ArchiveOpening {
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const worker = new Worker(threadFile('archive-thread'), {
    workerData: { path, programVersion, makeFolder, purpose, stop },
  });
  const answer = new Promise<ThreadAnswer | { readonly ended: string }>((settle) => {
    worker.once('message', settle);
    worker.once('error', (error) =>
      settle({ ended: error instanceof Error ? error.message : String(error) }),
    );
    worker.once('exit', () => settle({ ended: THREAD_ENDED }));
  });
  return { path, worker, stop, answer };
}

export const THREAD_ENDED = 'the thread ended';
