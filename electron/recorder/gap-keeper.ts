/** The gaps of one record: at most one lasts, and the next reading ends it. Each goes into the archive as it comes. */
import type { NewGap } from '../../core/archive/batch.ts';
import type { Gap } from '../../core/contract/record.ts';
import type { Committer } from './committer.ts';

export class GapKeeper {
  readonly #committer: Committer;
  readonly #gaps: Gap[];
  #isOpen: boolean;

  constructor(committer: Committer, kept: { readonly gaps: readonly Gap[]; readonly isOpen: boolean }) {
    this.#committer = committer;
    this.#gaps = [...kept.gaps];
    this.#isOpen = kept.isOpen;
  }

  get all(): readonly Gap[] {
    return this.#gaps;
  }
  /** A gap lasts. */
  get isOpen(): boolean {
    return this.#isOpen;
  }

  /** Begins a gap before reading `beforeSeq`; false where one lasts already. */
  begin({ cause, beforeSeq, fromUs, words }: Omit<NewGap, 'toUs'>): boolean {
    if (this.#isOpen) return false;
    this.#isOpen = true;
    this.#committer.addGap({ cause, beforeSeq, fromUs, toUs: null, words });
    this.#gaps.push({
      gapId: (this.#gaps.at(-1)?.gapId ?? 0) + 1,
      cause,
      beforeSeq,
      fromElapsedUs: fromUs,
      toElapsedUs: null,
      words,
    });
    return true;
  }

  /** Ends the gap that lasts; false where none does. */
  end(atUs: number): boolean {
    const open = this.#gaps.at(-1);
    if (!this.#isOpen || open === undefined) return false;
    this.#isOpen = false;
    this.#committer.endGap(atUs);
    this.#gaps[this.#gaps.length - 1] = { ...open, toElapsedUs: Math.max(atUs, open.fromElapsedUs) };
    return true;
  }
}
