/**
 * Whether the readout's loads can be used. One that sends lines and marks every load as an error or as overload looks
 * alive, while nothing starts, nothing breaks and nothing will be found afterwards.
 */
import type { ChannelStatus, Reading } from '../../core/contract/reading.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { NoticeBoard } from './notice-board.ts';

/** So many lines one after the other without a usable load are told; a broken specimen's single overload is not. */
const UNUSABLE_LINES_MAX = 20;
const CODE = 'load-not-usable';

const WORDS = {
  overload: 'overload',
  blank: 'blank',
  'error-word': 'an error',
  malformed: 'no number',
} as const;

export class LoadWatch {
  readonly #places: readonly number[];
  readonly #notices: NoticeBoard;
  #inARow = 0;

  constructor(profile: ReadoutProfile, notices: NoticeBoard) {
    this.#notices = notices;
    this.#places = profile.channels.flatMap(({ quantity, peak }, place) =>
      quantity === 'force' && !peak ? [place] : [],
    );
  }

  note(reading: Reading): void {
    let first: ChannelStatus | null = null;
    let bad = true;
    // A loop, not closures: this runs for every line of a fast readout.
    for (const place of this.#places) {
      const status = reading.channels[place]?.status ?? null;
      first ??= status;
      if (status === 'ok' || status === 'out-of-range') bad = false;
    }
    if (first === null) return;
    this.#inARow = bad ? this.#inARow + 1 : 0;
    if (!bad) this.#notices.over(CODE);
    else if (this.#inARow === UNUSABLE_LINES_MAX)
      this.#notices.raise(
        'alarm',
        CODE,
        `The readout sends lines, but marks every load as ${WORDS[first as keyof typeof WORDS]}, so no pull starts by itself and no strength can be found; look at the readout, then at the status words of its profile.`,
      );
  }
}
