/** The recorder's side of the archive's thread: calls by name, answers as promises, troubles as what they are. */
import { Worker } from 'node:worker_threads';
import { type ArchiveFaultCode, ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import type { ArchiveCall, ArchiveCalls } from './archive-calls.ts';

export interface ThreadCall {
  readonly id: number;
  readonly name: ArchiveCall;
  readonly args: readonly unknown[];
}

export type ThreadTrouble =
  | {
      readonly kind: 'fault';
      readonly code: ArchiveFaultCode;
      readonly sentence: string;
      readonly detail: string | undefined;
    }
  | {
      readonly kind: 'refusal';
      readonly code: string;
      readonly sentence: string;
      readonly field: string | undefined;
    }
  | { readonly kind: 'bug'; readonly sentence: string };

/** Number −1 answers the opening itself. */
export type ThreadAnswer =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly id: number; readonly ok: false; readonly trouble: ThreadTrouble };

export interface KeeperOptions {
  readonly path: string;
  readonly programVersion: string;
  readonly makeFolder: boolean;
  readonly purpose: 'record' | 'read';
  /** The thread has ended by itself: nothing can be kept any more. */
  readonly onGone: (why: string) => void;
}

type Settle = (answer: ThreadAnswer) => void;

export class ArchiveKeeper {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Settle>();
  #nextId = 0;
  #ended = false;

  private constructor(worker: Worker) {
    this.#worker = worker;
  }

  /** Opens the archive in its thread. Rejects with an ArchiveFault. */
  static async open({ onGone, ...options }: KeeperOptions): Promise<ArchiveKeeper> {
    const worker = new Worker(threadFile(), { workerData: options });
    const keeper = new ArchiveKeeper(worker);
    let isOpen = false;
    const gone = (why: string): void => {
      const byItself = isOpen && !keeper.#ended;
      keeper.#gone(why);
      if (byItself) onGone(why);
    };
    const opened = new Promise<ThreadAnswer>((settle) => keeper.#waiting.set(-1, settle));
    worker.on('message', (answer: ThreadAnswer) => keeper.#settle(answer));
    worker.on('error', (error) => gone(error instanceof Error ? error.message : String(error)));
    worker.on('exit', () => gone('the thread ended'));
    const answer = await opened;
    if (!answer.ok) {
      await worker.terminate();
      throw errorOf(answer.trouble);
    }
    isOpen = true;
    return keeper;
  }

  /** Rejects with an ArchiveFault, an ArchiveRefusal, or an Error for a bug. Calls are done in order. */
  async call<N extends ArchiveCall>(
    name: N,
    ...args: Parameters<ArchiveCalls[N]>
  ): Promise<ReturnType<ArchiveCalls[N]>> {
    const id = this.#nextId++;
    const answer = await new Promise<ThreadAnswer>((settle) => {
      if (this.#ended) {
        settle({ id, ok: false, trouble: GONE });
        return;
      }
      this.#waiting.set(id, settle);
      const call: ThreadCall = { id, name, args };
      this.#worker.postMessage(call);
    });
    if (!answer.ok) throw errorOf(answer.trouble);
    return answer.value as ReturnType<ArchiveCalls[N]>;
  }

  /** Closes the archive and ends the thread. Safe to call twice. */
  async close(): Promise<void> {
    if (this.#ended) return;
    await this.call('close').catch(() => undefined);
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

function errorOf(trouble: ThreadTrouble): Error {
  switch (trouble.kind) {
    case 'fault':
      return new ArchiveFault(trouble.code, trouble.sentence, trouble.detail);
    case 'refusal':
      return new ArchiveRefusal(trouble.code, trouble.sentence, trouble.field);
    case 'bug':
      return new Error(trouble.sentence);
  }
}

/** Beside this file: source in development, bundle in a package. */
function threadFile(): URL {
  return new URL(
    import.meta.url.endsWith('.ts') ? './archive-thread.ts' : './archive-thread.mjs',
    import.meta.url,
  );
}
