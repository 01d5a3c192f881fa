/** Cues of the pull: it has started, it has broken, readings no longer come. Also from another station. */
import { effect, untracked } from '@preact/signals';
import type { SessionState } from '../../../core/contract/session.ts';
import { cue } from '../../design/sound-cue.ts';
import { session } from '../../store/session-store.ts';

/** Returns what stops it. */
export function soundThePull(): () => void {
  let before: { readonly pullId: number; readonly state: SessionState; readonly fresh: boolean } | null =
    null;
  return effect(() => {
    const now = session.value;
    const pullId = now?.pull?.pullId ?? null;
    const was = before;
    before = now === null || pullId === null ? null : { pullId, state: now.state, fresh: now.signal.fresh };
    // What stood there when the page was loaded is no news.
    if (now === null || was === null || was.pullId !== pullId) return;
    untracked(() => {
      if (was.state !== 'pulling' && now.state === 'pulling') cue('started');
      if (was.state === 'pulling' && now.state === 'broken') cue('broken');
      if (was.fresh && !now.signal.fresh && ['ready', 'pulling'].includes(now.state)) cue('trouble');
    });
  });
}
