/** The newest lines of the readout, raw and parsed side by side, before and while anything is recorded. */
import type { Preview, PreviewLine } from '../../core/contract/readout-requests.ts';
import type { ReadoutChannel } from '../../core/contract/readout-profile.ts';
import { PREVIEW_LINES_MAX } from '../../core/limits.ts';
import { shownText } from '../../core/pull/decimal-text.ts';
import type { ParsedLine } from '../../drivers/reading.ts';

const TEXT_SHOWN_MAX = 200;

export class PreviewBuffer {
  readonly #channels: readonly ReadoutChannel[];
  /** As they were parsed; their text is made only for those that are shown. */
  #lines: { readonly number: number; readonly parsed: ParsedLine }[] = [];
  #lineCount = 0;
  #toldCount = 0;

  constructor(channels: readonly ReadoutChannel[]) {
    this.#channels = channels;
  }

  push(parsed: ParsedLine): void {
    this.#lines.push({ number: this.#lineCount++, parsed });
    if (this.#lines.length > 2 * PREVIEW_LINES_MAX) this.#lines = this.#lines.slice(-PREVIEW_LINES_MAX);
  }

  #newest(count: number): PreviewLine[] {
    return this.#lines.slice(-Math.min(count, PREVIEW_LINES_MAX)).map((line) => this.#shown(line));
  }

  #shown({ number, parsed: { outcome, bytes } }: { number: number; parsed: ParsedLine }): PreviewLine {
    return {
      line: number,
      text: Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.length, TEXT_SHOWN_MAX)).toString(
        'latin1',
      ),
      misfit: outcome.kind === 'misfit' ? outcome.reason : null,
      values:
        outcome.kind === 'misfit'
          ? []
          : outcome.reading.channels.map((value, index) => ({
              key: this.#channels[index]?.field ?? '',
              status: value.status,
              shownText: shownText(value).slice(0, 80),
            })),
    };
  }

  get lineCount(): number {
    return this.#lineCount;
  }

  /** Everything that is held. */
  all(bytesWithoutLine: number): Preview {
    return { lines: this.#newest(PREVIEW_LINES_MAX), bytesWithoutLine };
  }

  /** Lines since the last call; null when there are none. */
  fresh(bytesWithoutLine: number): Preview | null {
    const count = this.#lineCount - this.#toldCount;
    if (count === 0) return null;
    this.#toldCount = this.#lineCount;
    return { lines: this.#newest(count), bytesWithoutLine };
  }
}
