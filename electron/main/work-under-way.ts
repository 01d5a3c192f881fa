/** Long work that the page has asked for and that is not answered yet, or does itself: closing the window asks about it first. */
import type { PageRequestName } from '../../core/contract/bridge.ts';

/** Those that write something. A check or a plan that is left loses nothing but its answer. */
const WRITES_LONG: ReadonlySet<PageRequestName> = new Set<PageRequestName>([
  'archive.backup',
  'archive.export',
  'archive.export-results',
  'archive.import',
  'archive.merge',
  'archive.restore',
  'archive.split',
  'window.back-up',
  'window.write-certificate',
  'window.write-results',
]);

export class WorkUnderWay {
  readonly #running = new Set<Promise<unknown>>();
  /** Work of many short requests; it ends with its page. */
  pageIsAtWork = false;

  /** Does it; counted while it lasts, where it is long and writes. */
  async watch<T>(name: PageRequestName, work: () => T | Promise<T>): Promise<T> {
    const done = Promise.resolve().then(work);
    if (!WRITES_LONG.has(name)) return done;
    this.#running.add(done);
    try {
      return await done;
    } finally {
      this.#running.delete(done);
    }
  }

  get isAny(): boolean {
    return this.pageIsAtWork || this.#running.size > 0;
  }

  /** Resolves when all that runs now has been answered, whatever came of it. */
  async over(): Promise<void> {
    await Promise.allSettled([...this.#running]);
  }
}
