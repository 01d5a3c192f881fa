/**
 * The gaps of one record: at most one of each instrument lasts, and the next reading of that one ends it. Each goes into
 * the archive as it comes.
 */
import type { NewGap } from '../../core/archive/batch.ts';
import type { Gap } from '../../core/contract/record.ts';
import type { InstrumentIndex } from '../../core/contract/second-readout.ts';
import type { Committer } from './committer.ts';

export class GapKeeper {
  readonly #committer: Committer;
  readonly #gaps: Gap[];

  constructor(committer: Committer, kept: readonly Gap[]) {
    this.#committer = committer;
    this.#gaps = [...kept];
  }

  get all(): readonly Gap[] {
    return this.#gaps;
  }

  /** A gap of this instrument lasts. */
  isOpen(instrument: InstrumentIndex = 0): boolean {
    return this.#lasting(instrument) !== -1;
  }

  /** Begins a gap before reading `beforeSeq`; false where one of this instrument lasts already. */
  begin({ cause, beforeSeq, fromUs, words }: Omit<NewGap, 'toUs'>, instrument: InstrumentIndex = 0): boolean {
    if (this.isOpen(instrument)) return false;
    const its = instrument === 1 ? ({ instrument } as const) : {};
    this.#committer.addGap({ cause, beforeSeq, fromUs, toUs: null, words, ...its });
    this.#gaps.push({
      gapId: (this.#gaps.at(-1)?.gapId ?? 0) + 1,
      cause,
      beforeSeq,
      fromElapsedUs: fromUs,
      toElapsedUs: null,
      words,
      ...its,
    });
    return true;
  }

  /** Ends the gap of this instrument that lasts; false where none does. */
  end(atUs: number, instrument: InstrumentIndex = 0): boolean {
    const index = this.#lasting(instrument);
    const open = this.#gaps[index];
    if (open === undefined) return false;
    this.#committer.endGap(atUs, instrument);
    this.#gaps[index] = { ...open, toElapsedUs: Math.max(atUs, open.fromElapsedUs) };
    return true;
  }

  /** The one that lasts is among the last two: one of each instrument. */
  #lasting(instrument: InstrumentIndex): number {
    for (let i = this.#gaps.length - 1; i >= 0; i--) {
      const gap = this.#gaps[i];
      if (gap !== undefined && (gap.instrument ?? 0) === instrument) return gap.toElapsedUs === null ? i : -1;
    }
    return -1;
  }
}
