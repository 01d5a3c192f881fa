/**
 * The pull that fracture, result and set are about: the session's, from its break or stop on. Its record may still run
 * then; what is shown follows it. Kept open while it is the same.
 */
import { effect, signal, untracked } from '@preact/signals';
import type { SessionState } from '../../core/contract/session.ts';
import { type OpenedPull, openPull } from '../store/kept-pull.ts';
import { followedPull, readingsArrived, session } from '../store/session-store.ts';
import { keepUpToDate } from './keep-up-to-date.ts';

export const endedPull = signal<OpenedPull | null>(null);
/** A pull that was typed from the frame's display: shown like the session's, while the session has none. */
export const typedPullId = signal<number | null>(null);

const ASSESSED_IN: ReadonlySet<SessionState> = new Set(['broken', 'stopped', 'ended']);

/** Follows the session: opens its pull when it has broken or been stopped. Returns what stops it. */
export function followEndedPull(): () => void {
  let look: ReturnType<typeof keepUpToDate> | null = null;
  return effect(() => {
    const now = session.value;
    const followed = followedPull.value;
    const isAssessed = now !== null && ASSESSED_IN.has(now.state) && followed?.pullId === now.pull?.pullId;
    const typed = now?.pull === null ? typedPullId.value : null;
    const pullId = isAssessed ? (followed?.pullId ?? null) : typed;
    untracked(() => {
      const held = endedPull.value;
      if (held?.pullId !== pullId) {
        held?.close();
        look?.stop();
        look = null;
        const opened =
          pullId === null
            ? null
            : isAssessed && followed !== null
              ? openPull(pullId, { readings: followed, arrived: readingsArrived })
              : openPull(pullId);
        endedPull.value = opened;
        if (opened !== null) look = keepUpToDate(() => opened.refresh());
      }
      if (now !== null) look?.saw(now);
    });
  });
}
