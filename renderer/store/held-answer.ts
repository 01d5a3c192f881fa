/**
 * What the archive answered last to one question, so that a view that is opened again shows it at once and asks anew
 * behind it. Of another archive nothing is shown.
 */
import { type ReadonlySignal, computed, signal } from '@preact/signals';
import type { Answer, Fault } from '../../core/contract/index.ts';
import { archiveGeneration } from './session-store.ts';

export class HeldAnswer<T> {
  readonly #ask: () => Promise<Answer<T>>;
  readonly #held = signal<{ readonly generation: number; readonly value: T } | null>(null);
  /** The newest of the questions under way. */
  #asked = 0;
  /** Null until the archive that is open has answered. */
  readonly value: ReadonlySignal<T | null> = computed(() => {
    const held = this.#held.value;
    return held?.generation === archiveGeneration.value ? held.value : null;
  });

  /** `ask`: the one question; how much it answers is bounded there. */
  constructor(ask: () => Promise<Answer<T>>) {
    this.#ask = ask;
  }

  /** Asks anew. The fault where that failed, and what was held stays; null where it is held or a newer question goes before. */
  async refresh(): Promise<Fault | null> {
    const own = ++this.#asked;
    const generation = archiveGeneration.peek();
    const answer = await this.#ask();
    if (own !== this.#asked || generation !== archiveGeneration.peek()) return null;
    if (!answer.ok) return answer.fault;
    this.#held.value = { generation, value: answer.value };
    return null;
  }
}
