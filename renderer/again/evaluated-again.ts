/** The run over what was found: one pull after the other, can be stopped and gone on with; then what is kept of it. */
import { signal } from '@preact/signals';
import type { Fault } from '../../core/contract/index.ts';
import {
  AGAIN_PULLS_MAX,
  type EvaluatedAgain,
  type SetAgain,
  evaluateAgain,
  keepAgain,
  setsAgain,
} from '../../core/evaluation/evaluate-again.ts';
import { Refused, asked } from '../store/asked.ts';
import { request } from '../store/session-store.ts';

export const wanted = signal<readonly number[]>([]);
/** Pulls done, those left out too; where it goes on. */
export const done = signal(0);
export const withoutStatement = signal(0);
export const changed = signal<readonly EvaluatedAgain[]>([]);
/** Sets of what changed: judged by what was stated, and now; once all pulls are evaluated. */
export const sets = signal<readonly SetAgain[]>([]);
/** Number of the evaluation that was kept, by pull. */
export const kept = signal<ReadonlyMap<number, number>>(new Map());
/** Whether every set of what changed was judged. */
export const setsDone = signal(false);
export const busy = signal<'evaluating' | 'judging' | 'keeping' | null>(null);
export const fault = signal<Fault | null>(null);

let generation = 0;

export function beginAnew(pullIds: readonly number[]): void {
  stop();
  wanted.value = pullIds.slice(0, AGAIN_PULLS_MAX);
  done.value = 0;
  withoutStatement.value = 0;
  changed.value = [];
  sets.value = [];
  setsDone.value = false;
  kept.value = new Map();
  fault.value = null;
}

export async function run(): Promise<void> {
  await inTurn('evaluating', async (isStopped) => {
    const rest = wanted.value.slice(done.value);
    for await (const line of evaluateAgain({ ask: asked, pullIds: rest, over: null, isStopped })) {
      if (isStopped()) return;
      done.value = wanted.value.indexOf(line.pullId) + 1;
      if (line.against === null) withoutStatement.value++;
      if (line.changes.length > 0) changed.value = [...changed.value, line];
    }
    if (isStopped()) return;
    done.value = wanted.value.length;
    busy.value = 'judging';
    sets.value = [];
    for await (const set of setsAgain(asked, changed.value, isStopped)) {
      if (isStopped()) return;
      sets.value = [...sets.value, set];
    }
    setsDone.value = true;
  });
}

/** Those that are not kept yet; what is kept stays kept when it is stopped. */
export async function keepChanged(said: { readonly reason: string; readonly by?: string }): Promise<number> {
  let count = 0;
  await inTurn('keeping', async (isStopped) => {
    for (const line of changed.value) {
      if (isStopped()) return;
      if (kept.value.has(line.pullId)) continue;
      const number = await keepAgain(asked, line, said);
      kept.value = new Map([...kept.value, [line.pullId, number]]);
      count++;
    }
  });
  return count;
}

export function stop(): void {
  generation++;
  setBusy(null);
}

/** Closing the window asks before what was worked out, and is not kept yet, is given up. */
function setBusy(what: 'evaluating' | 'keeping' | null): void {
  const was = busy.peek();
  busy.value = what;
  if ((was === null) !== (what === null)) void request('window.at-work', { at: what !== null });
}

async function inTurn(
  what: 'evaluating' | 'keeping',
  work: (isStopped: () => boolean) => Promise<void>,
): Promise<void> {
  const own = ++generation;
  setBusy(what);
  fault.value = null;
  try {
    await work(() => own !== generation);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    if (own === generation) fault.value = error.fault;
  } finally {
    if (own === generation) setBusy(null);
  }
}
