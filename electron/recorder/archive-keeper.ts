/** The recorder's side of the archive's thread: calls by name, answers as promises, troubles as what they are. */
import type { Worker } from 'node:worker_threads';
import type { ExchangeProgress } from '../../core/contract/exchange-requests.ts';
import type { ArchiveCall, ArchiveCalls } from './archive-calls.ts';
import {
  type ArchiveOpening,
  type OpenedArchive,
  THREAD_ENDED,
  type ThreadAnswer,
} from './archive-opening.ts';
import { type ThreadTrouble, errorOf } from './thread-trouble.ts';

export interface ThreadCall {
  readonly id: number;
  readonly name: ArchiveCall;
  readonly args: readonly unknown[];
}

/** How far long work is. */
export interface ThreadProgress {
  readonly id: typeof PROGRESS_ID;
  readonly progress: ExchangeProgress;
}
export const PROGRESS_ID = -2;

export interface KeeperOptions {
  /** The thread has ended by itself: nothing can be kept any more. */
  readonly onGone: (why: string) => void;
  readonly onProgress?: ((progress: ExchangeProgress) => void) | undefined;
}

type Settle = (answer: ThreadAnswer) => void;

export class ArchiveKeeper {
  readonly path: string;
  /** As it was when it was opened. */
  readonly opened: OpenedArchive;
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Settle>();
  /** Seen by the thread in the middle of its work. */
  readonly #stop: Int32Array;
  #nextId = 0;
  #ended = false;
  #isClosing = false;
  #longWork = 0;

  private constructor(worker: Worker, stop: Int32Array, path: string, opened: OpenedArchive) {
    this.path = path;
    this.opened = opened;
    this.#worker = worker;
    this.#stop = stop;
  }

  /** Waits until the archive is open in its thread. Rejects with an ArchiveFault. */
  static async open(
    { worker, stop, path, answer: told }: ArchiveOpening,
    { onGone, onProgress }: KeeperOptions,
  ): Promise<ArchiveKeeper> {
    const answer = await told;
    if ('ended' in answer) throw errorOf({ ...GONE, detail: answer.ended });
    if (!answer.ok) {
      await worker.terminate();
      throw errorOf(answer.trouble);
    }
    const keeper = new ArchiveKeeper(worker, stop, path, answer.value as OpenedArchive);
    const gone = (why: string): void => {
      const byItself = !keeper.#ended;
      keeper.#gone(why);
      if (byItself) onGone(why);
    };
    worker.on('message', (told: ThreadAnswer | ThreadProgress) => {
      if ('progress' in told) onProgress?.(told.progress);
      else keeper.#settle(told);
    });
    worker.on('error', (error) => gone(error instanceof Error ? error.message : String(error)));
    worker.on('exit', () => gone(THREAD_ENDED));
    // A thread that is no more has no number, and says nothing again.
    if (worker.threadId === -1) gone(THREAD_ENDED);
    return keeper;
  }

  /** A record that is begun meanwhile would have to wait for it. */
  get isAtLongWork(): boolean {
    return this.#longWork > 0;
  }

  get isClosing(): boolean {
    return this.#isClosing;
  }

  /** Rejects with an ArchiveFault, an ArchiveRefusal, or an Error for a bug. Calls are done in order, but for work in steps. */
  async call<N extends ArchiveCall>(
    name: N,
    ...args: Parameters<ArchiveCalls[N]>
  ): Promise<Awaited<ReturnType<ArchiveCalls[N]>>> {
    const id = this.#nextId++;
    const answer = await new Promise<ThreadAnswer>((settle) => {
      if (this.#ended || this.#isClosing) {
        settle({ id, ok: false, trouble: GONE });
        return;
      }
      this.#waiting.set(id, settle);
      const call: ThreadCall = { id, name, args };
      this.#worker.postMessage(call);
    });
    if (!answer.ok) throw errorOf(answer.trouble);
    return answer.value as Awaited<ReturnType<ArchiveCalls[N]>>;
  }

  /** Long work in steps, which lets other calls pass, as a call that `stopLongWork` ends. */
  callInSteps<N extends ArchiveCall>(
    name: N,
    ...args: Parameters<ArchiveCalls[N]>
  ): Promise<Awaited<ReturnType<ArchiveCalls[N]>>> {
    Atomics.store(this.#stop, 0, 0);
    return this.call(name, ...args);
  }

  /**
   * Long work beside which no record is begun: it holds up every other call, or has steps longer than a commit may wait. A
   * call that `stopLongWork` ends.
   */
  async callLong<N extends ArchiveCall>(
    name: N,
    ...args: Parameters<ArchiveCalls[N]>
  ): Promise<Awaited<ReturnType<ArchiveCalls[N]>>> {
    this.#longWork++;
    try {
      return await this.callInSteps(name, ...args);
    } finally {
      this.#longWork--;
    }
  }

  stopLongWork(): void {
    Atomics.store(this.#stop, 0, 1);
  }

  /** Closes the archive and ends the thread. Safe to call twice. */
  async close(): Promise<void> {
    if (this.#isClosing) return;
    const closed = this.call('close');
    // What is asked from now on would come after it.
    this.#isClosing = true;
    await closed.catch(() => undefined);
    this.#ended = true;
    await this.#worker.terminate();
  }

  #settle(answer: ThreadAnswer): void {
    this.#waiting.get(answer.id)?.(answer);
    this.#waiting.delete(answer.id);
  }

  #gone(why: string): void {
    this.#ended = true;
    for (const id of [...this.#waiting.keys()])
      this.#settle({ id, ok: false, trouble: { ...GONE, detail: why } });
  }
}

const GONE = {
  kind: 'fault',
  code: 'archive-not-open',
  sentence: 'The archive is not open; what was kept before is safe.',
  detail: undefined,
} as const satisfies ThreadTrouble;
