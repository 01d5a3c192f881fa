/** Cues of the pull: it has started, it has broken, something is amiss with its record. Also from another station. */
import { effect, untracked } from '@preact/signals';
import type { Notice } from '../../../core/contract/notice.ts';
import type { Session, SessionState } from '../../../core/contract/session.ts';
import type { RecorderLink } from '../../../core/contract/window-requests.ts';
import { cue } from '../../design/sound-cue.ts';
import { notices, recorderLink, session } from '../../store/session-store.ts';

/** A port that comes and goes is heard no more often than this. */
const TROUBLE_AGAIN_MS = 5_000;

/** What the readout no longer sends is no loss once the specimen has broken. */
const OF_THE_READOUT = /^(?:second-)?(?:no-fresh-reading|signal-lost|load-not-usable)$/;

/** All that is amiss with the record of this pull now, each by a name of its own. */
function troublesOf(
  { state, signal, pull }: Session,
  standing: ReadonlyMap<string, Notice>,
  link: RecorderLink | null,
): ReadonlySet<string> {
  const isLive = state === 'ready' || state === 'pulling';
  const isKept = isLive || state === 'broken' || state === 'stopped';
  const alarms = [...standing.values()]
    .filter(({ severity }) => severity === 'alarm')
    .map(({ code }) => code);
  return new Set([
    ...(isLive && !signal.fresh ? ['silence'] : []),
    ...(isLive && pull !== null ? pull.gaps.map((_, index) => `gap ${String(index)}`) : []),
    ...(isKept && link !== null && link.state !== 'connected' ? ['recorder'] : []),
    ...alarms.filter((code) => isLive || (isKept && !OF_THE_READOUT.test(code))),
  ]);
}

/** Returns what stops it. */
export function soundThePull(): () => void {
  let before: { readonly pullId: number; readonly state: SessionState } | null = null;
  /** What stands and was heard, or stood there before anybody could be told. */
  let known: ReadonlySet<string> = new Set();
  let troubleMs = Number.NEGATIVE_INFINITY;
  return effect(() => {
    const now = session.value;
    const pullId = now?.pull?.pullId ?? null;
    const troubles = now === null ? new Set<string>() : troublesOf(now, notices.value, recorderLink.value);
    const was = before;
    before = now === null || pullId === null ? null : { pullId, state: now.state };
    // What stood there when the page was loaded, or when the pull was made ready, is no news.
    if (now === null || was === null || was.pullId !== pullId) {
      known = troubles;
      return;
    }
    untracked(() => {
      if (was.state !== 'pulling' && now.state === 'pulling') cue('started');
      if (was.state === 'pulling' && now.state === 'broken') cue('broken');
      const nowMs = performance.now();
      const isAmiss = [...troubles].some((trouble) => !known.has(trouble));
      // What comes too soon is heard by the next snapshot that finds it standing still.
      if (isAmiss && nowMs - troubleMs < TROUBLE_AGAIN_MS) {
        known = new Set([...known].filter((trouble) => troubles.has(trouble)));
        return;
      }
      known = troubles;
      if (!isAmiss) return;
      troubleMs = nowMs;
      cue('trouble');
    });
  });
}
