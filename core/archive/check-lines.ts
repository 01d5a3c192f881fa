/** What a check has to say, line by line: all faults first of all, and of a large archive not a line for each that is sound. */
import type { CheckLine } from '../contract/archive-requests.ts';
import { CHECK_FAULT_LINES_MAX, CHECK_SOUND_LINES_MAX, TEXT_LENGTH_MAX } from '../limits.ts';

export class CheckLines {
  readonly #lines: CheckLine[] = [];
  #faults = 0;
  #sound = 0;

  /** Of the archive as a whole. */
  add(name: string, ok: boolean, words: string): void {
    if (!ok) this.#faults++;
    this.#lines.push({ name, ok, words: words.slice(0, TEXT_LENGTH_MAX) });
  }

  /** Of one pull or one result, of which there may be hundreds of thousands. */
  addOfPull(name: string, ok: boolean, words: string): void {
    if (ok ? ++this.#sound > CHECK_SOUND_LINES_MAX : this.#faults >= CHECK_FAULT_LINES_MAX) {
      if (!ok) this.#faults++;
      return;
    }
    this.add(name, ok, words);
  }

  result(): { readonly sound: boolean; readonly lines: CheckLine[] } {
    const more = (count: number, max: number, words: string): CheckLine[] =>
      count > max ? [{ name: 'more', ok: words === SOUND, words: `${String(count - max)} ${words}` }] : [];
    return {
      sound: this.#faults === 0,
      lines: [
        ...this.#lines,
        ...more(this.#sound, CHECK_SOUND_LINES_MAX, SOUND),
        ...more(this.#faults, CHECK_FAULT_LINES_MAX, 'more faults were found and are not listed'),
      ],
    };
  }
}

const SOUND = 'more checks of pulls and results found nothing wrong';
