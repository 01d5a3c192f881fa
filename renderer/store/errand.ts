/** One request under way at a time for one set of buttons, with the fault of the last one. */
import { type Signal, signal } from '@preact/signals';
import type { Answer, Fault } from '../../core/contract/index.ts';

export interface Errand {
  readonly busy: Signal<boolean>;
  readonly fault: Signal<Fault | null>;
  /** Runs a request; null where it failed (the fault is then shown) or another is under way. */
  run<T>(work: () => Promise<Answer<T>>): Promise<T | null>;
}

export function errand(): Errand {
  const busy = signal(false);
  const fault = signal<Fault | null>(null);
  return {
    busy,
    fault,
    async run(work) {
      if (busy.value) return null;
      busy.value = true;
      fault.value = null;
      try {
        const answer = await work();
        if (answer.ok) return answer.value;
        fault.value = answer.fault;
        return null;
      } finally {
        busy.value = false;
      }
    },
  };
}
