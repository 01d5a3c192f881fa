/** Who listens to a recorder, and what they are told: events as they come, a changed session at the next turn. */
import type { EventName, EventOf } from '../../core/contract/index.ts';
import type { Session } from '../../core/contract/session.ts';

export interface RecorderListener {
  readonly onEvent: <N extends EventName>(name: N, event: EventOf<N>) => void;
  /** There are new readings in the view buffer. */
  readonly onReadings: () => void;
  /** False while nobody would be told; absent: always. A snapshot that nobody sees is not made. */
  readonly isHeard?: () => boolean;
}

export class RecorderListeners {
  readonly #listeners = new Set<RecorderListener>();
  readonly #session: () => Session;
  #changed = false;

  constructor(session: () => Session) {
    this.#session = session;
  }

  /** The function that is given back ends the listening. */
  add(listener: RecorderListener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Somebody would be told. */
  get areHeard(): boolean {
    for (const { isHeard } of this.#listeners) if (isHeard?.() ?? true) return true;
    return false;
  }

  emit<N extends EventName>(name: N, event: EventOf<N>): void {
    for (const listener of this.#listeners) listener.onEvent(name, event);
  }

  readingsCame(): void {
    for (const listener of this.#listeners) listener.onReadings();
  }

  /** Something that the session shows has changed; told once at the next turn, however often it is said. */
  changed(): void {
    if (this.#changed) return;
    this.#changed = true;
    setImmediate(() => {
      this.#changed = false;
      if (this.areHeard) this.emit('session', this.#session());
    });
  }
}
