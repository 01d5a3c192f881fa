/**
 * What the sources give from their opening on until the record that they are opened for has begun, kept in order: the record
 * then holds it from the first byte. Beginning a record takes one transaction, so this is little and short-lived.
 */
import { HELD_BYTES_MAX } from '../../core/limits.ts';
import type { InstrumentIndex } from '../../core/contract/second-readout.ts';
import type { Recording } from './recording.ts';

type Step = (recording: Recording) => void;

export class HeldOpening {
  readonly #steps: Step[] = [];
  #since: { readonly us: number; readonly wallMs: number } | null = null;
  #heldBytes = 0;
  #isFull = false;

  /** When the first source was opened first: the moment at which the record begins. Null while it is not open yet. */
  get since(): { readonly us: number; readonly wallMs: number } | null {
    return this.#since;
  }

  opened(instrument: InstrumentIndex, atUs: number, mayBeMidLine: boolean): void {
    this.#since ??= { us: atUs, wallMs: Date.now() };
    this.#keep((recording) =>
      recording.sourceOpened(instrument, atUs - recording.start.startedUs, mayBeMidLine),
    );
  }

  take(instrument: InstrumentIndex, bytes: Uint8Array, arrivedUs: number): void {
    const fits = this.#heldBytes + bytes.length <= HELD_BYTES_MAX;
    if (!fits && this.#isFull) return;
    this.#isFull = !fits;
    if (!fits) {
      this.#keep((recording) => {
        recording.sourceEnded(instrument);
        recording.beginGap(
          'readings-not-kept',
          arrivedUs - recording.start.startedUs,
          'the archive could not be written to and memory was full',
          instrument,
        );
      });
      return;
    }
    this.#heldBytes += bytes.length;
    this.#keep((recording) => recording.takeChunk(instrument, bytes, arrivedUs - recording.start.startedUs));
  }

  ended(instrument: InstrumentIndex): void {
    this.#keep((recording) => recording.sourceEnded(instrument));
  }

  gap(instrument: InstrumentIndex, words: string): void {
    this.#keep((recording) =>
      recording.beginGap('signal-lost', recording.lastReadingUs(instrument) ?? 0, words, instrument),
    );
  }

  note(code: string, sentence: string): void {
    this.#keep((recording) => recording.noteNow(code, sentence));
  }

  /** Into the record that has begun, as it came. */
  handTo(recording: Recording): void {
    for (const step of this.#steps.splice(0)) step(recording);
  }

  #keep(step: Step): void {
    this.#steps.push(step);
  }
}
