/** Recorded bytes given out again, at true pace or faster. */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { SourceOf } from '../../core/contract/source.ts';
import {
  type MonotonicClock,
  SourceFaultError,
  type Transport,
  type TransportListener,
} from '../transport.ts';
import { readRecording } from './recording.ts';

/** Chunks given out in one turn of the event loop when pace does not matter, so that others get their turn. */
const CHUNKS_PER_TURN = 64;

export class ReplayTransport implements Transport {
  readonly kind = 'replay';
  readonly place: string;
  readonly #source: SourceOf<'replay'>;
  readonly #profile: ReadoutProfile;
  readonly #clock: MonotonicClock;
  #listener: TransportListener | null = null;
  #timer: NodeJS.Timeout | null = null;

  constructor(source: SourceOf<'replay'>, profile: ReadoutProfile, clock: MonotonicClock) {
    this.#source = source;
    this.#profile = profile;
    this.#clock = clock;
    this.place = source.file;
  }

  async open(listener: TransportListener): Promise<void> {
    const chunks = await readRecording(this.#source.file, this.#profile);
    const { pace = 'true' } = this.#source;
    const factor = pace === 'true' ? 1 : pace === 'faster' ? Number.POSITIVE_INFINITY : pace;
    this.#listener = listener;
    const beganUs = this.#clock();
    let next = 0;
    const give = (): void => {
      const dueUs = (this.#clock() - beganUs) * factor;
      for (let given = 0; given < CHUNKS_PER_TURN; given++) {
        const chunk = chunks[next];
        if (chunk === undefined) {
          this.#end({ kind: 'finished', sentence: `The recording ${this.place} has come to its end.` });
          return;
        }
        if (factor !== Number.POSITIVE_INFINITY && chunk.elapsedUs > dueUs) break;
        next++;
        this.#listener?.onChunk(chunk.bytes, this.#clock());
        // Closed by its listener.
        if (this.#listener === null) return;
      }
      const waitUs =
        factor === Number.POSITIVE_INFINITY ? 0 : ((chunks[next]?.elapsedUs ?? 0) - dueUs) / factor;
      this.#timer = setTimeout(give, Math.max(0, Math.min(waitUs / 1000, 1000)));
    };
    this.#timer = setTimeout(give, 0);
  }

  write(): Promise<void> {
    return Promise.reject(
      new SourceFaultError({
        code: 'write-failed',
        sentence: `${this.place} is a recording: nothing can be sent to it.`,
      }),
    );
  }

  close(): Promise<void> {
    this.#end({ kind: 'asked', sentence: `${this.place} was closed.` });
    return Promise.resolve();
  }

  #end(reason: Parameters<TransportListener['onClose']>[0]): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    const listener = this.#listener;
    this.#listener = null;
    listener?.onClose(reason);
  }
}
