/**
 * The beginning of the archive's thread, by itself: the recorder's entry starts it before it reads the rest of its own
 * program, and both get ready side by side.
 */
import { Worker } from 'node:worker_threads';
import type { OpenRecord } from '../../core/archive/open-record.ts';
import { threadFile } from './thread-file.ts';
import type { ThreadTrouble } from './thread-trouble.ts';

/** Number −1 answers the opening itself, with an OpenedArchive. */
export type ThreadAnswer =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly id: number; readonly ok: false; readonly trouble: ThreadTrouble };

export interface ThreadStart {
  readonly path: string;
  readonly programVersion: string;
  readonly makeFolder: boolean;
  readonly purpose: 'record' | 'read';
}

/** What the thread tells of the archive that it has opened. */
export interface OpenedArchive {
  /** It was copied without its log: what was kept last is missing. */
  readonly isHalfCopy: boolean;
  /** A restore had been killed over it, and it was put back at its place. */
  readonly isTakenBack: boolean;
  readonly identity: string;
  /** A record that was left open; null where there is none, and where the archive is only read. */
  readonly openRecord: OpenRecord | null;
  /** Of its disk; null where that is not known, and where the archive is only read. */
  readonly freeBytes: number | null;
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
