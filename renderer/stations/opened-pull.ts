/** The pull that fracture and result are about: the session's, once its record is closed. Kept open while it is the same. */
import { effect, signal, untracked } from '@preact/signals';
import { type OpenedPull, openPull } from '../store/kept-pull.ts';
import { session } from '../store/session-store.ts';

export const endedPull = signal<OpenedPull | null>(null);

/** Follows the session: opens its pull when the record is closed. Returns what stops it. */
export function followEndedPull(): () => void {
  return effect(() => {
    const now = session.value;
    const pullId = now?.state === 'ended' ? (now.pull?.pullId ?? null) : null;
    untracked(() => {
      const held = endedPull.value;
      if (held?.pullId === pullId) return;
      held?.close();
      endedPull.value = pullId === null ? null : openPull(pullId);
    });
  });
}
