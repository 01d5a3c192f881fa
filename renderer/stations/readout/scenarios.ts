/** What the simulated frame can pull: each scenario with its specimen, the one for a first pull at the head. */
import { effect, signal, untracked } from '@preact/signals';
import type { PageReplyOf } from '../../../core/contract/bridge.ts';
import { request, session } from '../../store/session-store.ts';

export type OfferedScenario = PageReplyOf<'readout.scenarios'>['scenarios'][number];

export const scenarios = signal<readonly OfferedScenario[]>([]);

/** Asks once the recorder is there. Returns what stops it. */
export function loadScenarios(): () => void {
  return effect(() => {
    const connected = session.value !== null;
    if (!connected || untracked(() => scenarios.value.length > 0)) return;
    void request('readout.scenarios', {}).then((answer) => {
      if (answer.ok) scenarios.value = answer.value.scenarios;
    });
  });
}

export function offeredScenario(name: string): OfferedScenario | undefined {
  return scenarios.value.find((s) => s.name === name);
}
