/**
 * Has the search index made in the background, and then what searches need held in memory, a step at a time in the
 * archive's thread, and never while a record is open: other calls wait for one step at most.
 */
import type { IndexProgress } from '../../core/contract/search-requests.ts';
import type { ArchiveKeeper } from './archive-keeper.ts';
import type { NoticeBoard } from './notice-board.ts';
import { faultOf } from './request-refused.ts';

/** Of one step. */
const STEP_MS = 40;
/** Begun so long after the opening, when a window has its first answers; then looked again so often for what has changed. */
const HOLD_AFTER_MS = 2_000;
const HOLD_AGAIN_MS = 1_000;
const HOLD_STEP_MS = 15;
const NOTICE = 'search-index-made';

export interface SearchIndexerOptions {
  /** Null while no archive is open. */
  readonly archive: () => ArchiveKeeper | null;
  readonly isRecording: () => boolean;
  /** It is open for recording. */
  readonly mayTidy: boolean;
  readonly notices: NoticeBoard;
  readonly onBug: (error: unknown) => void;
}

export class SearchIndexer {
  readonly #options: SearchIndexerOptions;
  /** Of which the index is known to be whole, or can't be made. */
  #done: ArchiveKeeper | null = null;
  /** Of which nothing is held in memory, because that failed. */
  #unheld: ArchiveKeeper | null = null;
  /** By the clock of the process, milliseconds. */
  #holdAt = 0;
  #isAtWork = false;

  constructor(options: SearchIndexerOptions) {
    this.#options = options;
  }

  /** To be called again and again: begins, goes on after a record, or does nothing. */
  look(): void {
    const archive = this.#options.archive();
    if (archive === null || this.#isAtWork || this.#options.isRecording()) return;
    const isIndexed = archive === this.#done;
    if (isIndexed && (archive === this.#unheld || performance.now() < this.#holdAt)) return;
    this.#isAtWork = true;
    void (isIndexed ? this.#hold(archive) : this.#goOn(archive)).finally(() => {
      this.#isAtWork = false;
      this.#holdAt = performance.now() + (isIndexed ? HOLD_AGAIN_MS : HOLD_AFTER_MS);
    });
  }

  async #goOn(archive: ArchiveKeeper): Promise<void> {
    const { isRecording, notices, onBug } = this.#options;
    try {
      let left = await archive.call('indexProgress');
      while (left !== null && !isRecording() && this.#options.archive() === archive) {
        this.#tell(left);
        left = await archive.call('goOnWithIndex', STEP_MS);
      }
      if (left !== null) return;
      notices.over(NOTICE);
      // An archive that is only read stays as it is, to the byte.
      if (this.#options.mayTidy && !(await this.#tidied(archive))) return;
      // What an earlier program held takes moments, and the first search finds it there.
      while (!isRecording() && this.#options.archive() === archive)
        if (!(await archive.call('goOnTakingOver', HOLD_STEP_MS))) break;
      this.#done = archive;
    } catch (error) {
      // Closed meanwhile: whoever opens it next goes on.
      if (this.#options.archive() !== archive) return;
      // The same row would stop it again: what is found lacks the rest until the archive is opened the next time.
      this.#done = archive;
      const fault = faultOf(error);
      if (fault === null) onBug(error);
      notices.raise('warning', NOTICE, `Not every pull can be searched: ${fault?.sentence ?? FAULTY}`);
    }
  }

  /** What can't be held is asked of the database: slower, and the same. */
  async #hold(archive: ArchiveKeeper): Promise<void> {
    const isWanted = (): boolean => !this.#options.isRecording() && this.#options.archive() === archive;
    try {
      while (isWanted() && (await archive.call('goOnHolding', HOLD_STEP_MS)));
    } catch (error) {
      if (this.#options.archive() !== archive) return;
      this.#unheld = archive;
      if (faultOf(error) === null) this.#options.onBug(error);
    }
  }

  /** False where a record has begun meanwhile; the rest is done after it. */
  async #tidied(archive: ArchiveKeeper): Promise<boolean> {
    for (let isFirst = true; await archive.call('tidyIndex', isFirst); isFirst = false)
      if (this.#options.isRecording() || this.#options.archive() !== archive) return false;
    return true;
  }

  /** In whole percent, so that not every step is told. */
  #tell({ made, of }: IndexProgress): void {
    const percent = of === 0 ? 0 : Math.floor((100 * made) / of);
    this.#options.notices.raise(
      'note',
      NOTICE,
      `The index for searching is being made, newest pulls first: ${String(percent)} % of ${String(of)} pulls can be searched. Everything else works meanwhile, and nothing recorded depends on it.`,
    );
  }
}

const FAULTY =
  'the index could not be made because of a fault in the program. The pulls themselves are kept.';
