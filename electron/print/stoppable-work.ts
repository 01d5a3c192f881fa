/** Long work of the window's own process that a person may stop; one at a time. */

export class StoppedByPerson extends Error {}

export class StoppableWork {
  #present: AbortController | null = null;

  /** Runs it with a signal that `stop` raises. The work ends by rejecting with what the signal gives as its reason. */
  async run<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
    const mine = new AbortController();
    this.#present = mine;
    try {
      return await work(mine.signal);
    } finally {
      if (this.#present === mine) this.#present = null;
    }
  }

  stop(): void {
    this.#present?.abort(new StoppedByPerson('stopped by a person'));
  }
}

/** What comes first: the work, or the stop. */
export function unlessStopped<T>(signal: AbortSignal | undefined, work: Promise<T>): Promise<T> {
  if (signal === undefined) return work;
  return Promise.race([
    work,
    new Promise<never>((_, refuse) => {
      const stop = (): void => refuse(signal.reason as Error);
      if (signal.aborted) stop();
      else signal.addEventListener('abort', stop, { once: true });
    }),
  ]);
}
