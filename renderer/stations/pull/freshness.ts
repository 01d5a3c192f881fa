/** Whether the figures may still be believed: the recorder says so, or it has itself fallen silent. */
import { signal } from '@preact/signals';
import type { Session } from '../../../core/contract/session.ts';

/** Snapshots come several times a second while anything moves; three seconds without one is trouble of its own. */
const SNAPSHOT_SILENCE_MS_MAX = 3_000;
const LOOK_PERIOD_MS = 500;

const snapshot = signal<{ readonly session: Session; readonly atMs: number } | null>(null);
/** Time of the page, read every now and then; never used for anything recorded. */
const nowMs = signal(0);

export interface Freshness {
  readonly fresh: boolean;
  readonly silentS: number;
  readonly since: number | null;
  readonly lost: boolean;
}

/** Follows the session's snapshots. Returns what stops it. */
export function watchFreshness(sessionOf: () => Session | null): () => void {
  const look = (): void => {
    nowMs.value = performance.now();
    const session = sessionOf();
    if (session !== null && session !== snapshot.peek()?.session)
      snapshot.value = { session, atMs: nowMs.value };
  };
  look();
  const timer = setInterval(look, LOOK_PERIOD_MS);
  return () => clearInterval(timer);
}

export function freshness(session: Session): Freshness {
  const seen = snapshot.value;
  const age = seen?.session === session ? Math.max(0, nowMs.value - seen.atMs) : 0;
  const recorderSilent = age > SNAPSHOT_SILENCE_MS_MAX;
  return {
    fresh: session.signal.fresh && !recorderSilent,
    silentS: (session.signal.silentMs + age) / 1000,
    since: session.signal.lastReadingWallMs,
    lost: session.readout?.link === 'lost',
  };
}
