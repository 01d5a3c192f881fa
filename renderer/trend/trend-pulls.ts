/** The results of what was found, evaluated one after the other; can be stopped, and goes on where it stopped. */
import { signal } from '@preact/signals';
import type { Fault } from '../../core/contract/index.ts';
import {
  TREND_PULLS_MAX,
  type JudgedSet,
  type TrendPull,
  judgedSets,
  trendPulls,
} from '../../core/trend/trend-pull.ts';
import { Refused, asked } from '../store/asked.ts';

export const pulls = signal<readonly TrendPull[]>([]);
/** Pulls looked at so far, those without a result too. */
export const wanted = signal<readonly number[]>([]);
export const isGathering = signal(false);
export const fault = signal<Fault | null>(null);
/** Sets of the pulls, judged once all of them are evaluated. */
export const sets = signal<readonly JudgedSet[]>([]);

/** Points come in by so many at a time: each time everything is drawn anew. */
const TOGETHER = 10;
let generation = 0;

/** Begins with these, or goes on with those that are still to be evaluated. */
export async function gather(pullIds: readonly number[], anew: boolean): Promise<void> {
  const own = ++generation;
  if (anew) {
    pulls.value = [];
    sets.value = [];
    // From the oldest on, so that a part of them is a stretch of time.
    wanted.value = [...pullIds].slice(0, TREND_PULLS_MAX).sort((a, b) => a - b);
  }
  fault.value = null;
  isGathering.value = true;
  const last = pulls.value.at(-1)?.pullId ?? 0;
  let came: TrendPull[] = [];
  const take = (): void => {
    if (own === generation) pulls.value = [...pulls.value, ...came];
    came = [];
  };
  try {
    const rest = wanted.value.filter((pullId) => pullId > last);
    for await (const pull of trendPulls({ ask: asked, pullIds: rest, isStopped: () => own !== generation })) {
      came.push(pull);
      if (came.length >= TOGETHER || pulls.value.length < TOGETHER) take();
    }
    take();
    if (own !== generation) return;
    const judged = await judgedSets(asked, pulls.value, () => own !== generation);
    if (own === generation) sets.value = judged;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    if (own === generation) fault.value = error.fault;
  } finally {
    take();
    if (own === generation) isGathering.value = false;
  }
}

/** What has come stays. */
export function stopGathering(): void {
  generation++;
  isGathering.value = false;
}
