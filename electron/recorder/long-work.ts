/** Work that takes long in the archive's thread: it tells how far it is, and can be stopped between two of its steps. */
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import type { ExchangeProgress, ExchangeWork } from '../../core/contract/exchange-requests.ts';

/** Between two words on how far it is. */
const TELL_MS = 200;

/** Of long work that is done outside the archive's thread, or partly so. */
export interface WorkWatch {
  /** Somebody asked for it to stop. */
  readonly signal: AbortSignal;
  readonly tell: (progress: ExchangeProgress) => void;
}

/** What became of work that was stopped. A merge that was stopped says it in its answer. */
export function stoppedRefusal(work: ExchangeWork): ArchiveRefusal {
  const sentence =
    work === 'check'
      ? 'The check was stopped; nothing is said of what it had not come to.'
      : work === 'backup' || work === 'backup-check'
        ? 'The backup was stopped; no file of it was kept, and earlier ones are as they were.'
        : work === 'restore'
          ? 'Restoring was stopped; the archive is as it was.'
          : work === 'export'
            ? 'It was stopped; no file was written.'
            : work === 'split'
              ? 'Splitting was stopped; no file of it was kept, and the archive is as it was.'
              : 'It was stopped; nothing of it was kept.';
  return new ArchiveRefusal('stopped', sentence);
}

export interface LongWork {
  /** Throws an ArchiveRefusal where it was stopped. */
  readonly step: (work: ExchangeWork, done: number, of: number) => void;
  readonly isStopped: () => boolean;
}

/** For work that nobody watches and nobody stops. */
export const UNWATCHED: LongWork = { step: () => undefined, isStopped: () => false };

/** `stop`: one number that another thread may set to 1. */
export function longWork(stop: Int32Array, tell: (progress: ExchangeProgress) => void): LongWork {
  let toldMs = -Infinity;
  const isStopped = (): boolean => Atomics.load(stop, 0) === 1;
  return {
    isStopped,
    step: (work, done, of) => {
      if (isStopped()) throw stoppedRefusal(work);
      const now = performance.now();
      if (now - toldMs < TELL_MS) return;
      toldMs = now;
      tell({ work, done, of });
    },
  };
}
