/**
 * Notices of the recorder as a terminal gets them: each trouble in full once, that it is over, and in a few words when
 * it comes again. A window shows what stands now; a terminal keeps every line, and the same one again tells nothing new.
 */
import type { Notice } from '../../core/contract/notice.ts';

/** What is said when a trouble is over; where nothing stands here, nothing is said. */
const OVER_WORDS: Readonly<Record<string, string>> = {
  'no-fresh-reading': 'Readings arrive again.',
  'signal-lost': 'The readout is there again.',
  'second-no-fresh-reading': 'Readings of the second instrument arrive again.',
  'second-signal-lost': 'The second instrument is there again.',
  'archive-not-written': 'The archive is written to again; nothing that was held is lost.',
  'archive-disk-slow': "The archive's disk is in time again.",
  'readings-not-kept': 'Readings are kept again; the gap is marked in the record.',
  'spool-not-written': 'The spool is written to again.',
};

export class NoticeTeller {
  readonly #tell: (line: string) => void;
  /** Sentences that were told, by code. */
  readonly #told = new Map<string, Set<string>>();
  /** What stands, by code: one that is asked for after it was told is the same one. */
  readonly #standing = new Map<string, string>();

  constructor(tell: (line: string) => void) {
    this.#tell = tell;
  }

  take({ severity, code, sentence, over }: Notice): void {
    if (severity === 'note') return;
    if (over) {
      const words = OVER_WORDS[code];
      if (this.#standing.delete(code) && words !== undefined) this.#tell(words);
      return;
    }
    if (this.#standing.get(code) === sentence) return;
    this.#standing.set(code, sentence);
    const told = this.#told.get(code) ?? new Set<string>();
    this.#told.set(code, told);
    this.#tell(told.has(sentence) ? `Again: ${firstClause(sentence)}` : sentence);
    told.add(sentence);
  }
}

/** "There is no fresh reading from the readout; see that …" → "There is no fresh reading from the readout." */
function firstClause(sentence: string): string {
  return `${sentence.split(/[;.:](?= |$)/, 1)[0] ?? sentence}.`;
}
