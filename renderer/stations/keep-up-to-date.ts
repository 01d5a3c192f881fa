/** Asks for facts and result of a pull again while its record runs: at every step at once, else at a measured pace. */
import type { Session } from '../../core/contract/session.ts';

/** After the break little changes any more; a result that is this old may still be looked at. */
const PAUSE_MS_MIN = 3_000;
/** An evaluation of a long record takes the archive's time, which belongs to the commits: a small part of it. */
const PAUSE_PER_WORK = 20;

export interface UpToDate {
  /** Looks whether there is more than the result rests on. */
  saw(session: Session): void;
  stop(): void;
}

export function keepUpToDate(refresh: () => Promise<void>): UpToDate {
  let steps: string | null = null;
  let readingCount = -1;
  let isAsking = false;
  let isStale = false;
  let nextMs = -Infinity;
  let stopped = false;
  let timer: ReturnType<typeof setTimeout> | null = null;

  /** Asked by a function, since it changes while an answer is waited for. */
  const mustAskAgain = (): boolean => isStale && !stopped;
  const ask = async (): Promise<void> => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    isStale = false;
    isAsking = true;
    const beganMs = performance.now();
    try {
      await refresh();
    } finally {
      isAsking = false;
      const nowMs = performance.now();
      nextMs = nowMs + Math.max(PAUSE_MS_MIN, PAUSE_PER_WORK * (nowMs - beganMs));
      // What was stepped meanwhile may be missing in the answer.
      if (mustAskAgain()) void ask();
    }
  };
  const askLater = (): void => {
    if (isAsking || timer !== null) return;
    timer = setTimeout(() => void ask(), Math.max(0, nextMs - performance.now()));
  };
  return {
    saw: ({ state, pull }) => {
      if (stopped || pull === null) return;
      const nowSteps = [state, pull.marks.length, pull.gaps.length].join(' ');
      const isStep = nowSteps !== steps;
      const isMore = pull.readingCount !== readingCount;
      steps = nowSteps;
      readingCount = pull.readingCount;
      if (isStep) {
        isStale = true;
        if (!isAsking) void ask();
      } else if (isMore) askLater();
    },
    stop: () => {
      stopped = true;
      if (timer !== null) clearTimeout(timer);
    },
  };
}
