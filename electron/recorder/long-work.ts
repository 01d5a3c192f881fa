/** Work that takes long in the archive's thread: it tells how far it is, and can be stopped between two of its steps. */
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import type { ExchangeProgress, ExchangeWork } from '../../core/contract/exchange-requests.ts';

/** Between two words on how far it is. */
const TELL_MS = 200;

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
      if (isStopped()) throw new ArchiveRefusal('stopped', 'It was stopped; nothing of it was kept.');
      const now = performance.now();
      if (now - toldMs < TELL_MS) return;
      toldMs = now;
      tell({ work, done, of });
    },
  };
}
