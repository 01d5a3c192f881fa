/** The results of what was found, evaluated one after the other; can be stopped, and goes on where it stopped. */
import { signal } from '@preact/signals';
import type { PageReplyOf } from '../../core/contract/bridge.ts';
import type { ReadElsewhere } from '../../core/contract/exchange-requests.ts';
import type { Ask, Fault } from '../../core/contract/index.ts';
import { NEWEST_FIRST, type SearchQuery, needsVerdicts } from '../../core/contract/search-requests.ts';
import {
  TREND_PULLS_MAX,
  type JudgedSet,
  type TrendPull,
  judgedSet,
  setsOf,
  trendPulls,
} from '../../core/trend/trend-pull.ts';
import { Refused, asked } from '../store/asked.ts';
import { keyElsewhere, numberOfPull } from '../store/elsewhere.ts';
import { request, requestElsewhere } from '../store/session-store.ts';

export const pulls = signal<readonly TrendPull[]>([]);
/** Pulls looked at so far, those without a result too. */
export const wanted = signal<readonly number[]>([]);
export const isGathering = signal(false);
export const fault = signal<Fault | null>(null);
/** Nothing is left to evaluate or to judge. */
export const isWhole = signal(false);
/** Sets of the pulls, judged once all of them are evaluated; while that goes on they are not shown yet. */
export const sets = signal<readonly JudgedSet[]>([]);
/** Those that were judged by now, also where it was stopped. */
let judged: JudgedSet[] = [];
/** How many of them were judged by now; null while that has not begun. */
export const setsJudged = signal<{ readonly done: number; readonly all: number } | null>(null);

/** With what the same search finds in the archives that are listed as others. */
export const withOthers = signal(false);

/** Sets of other archives with verdicts that are not known, where the search rests on them: their pulls are left out. */
export const setsNotJudged = signal(0);

/** What an archive is asked with: the own one, or another by its sign. */
interface Part {
  readonly ask: Ask;
  /** The number of a pull or a set of this archive, as the page has it. */
  readonly keyOf: (id: number) => number;
  /** From the oldest on, so that a part of them is a stretch of time. */
  readonly pullIds: readonly number[];
}

const OWN = (pullIds: readonly number[]): Part => ({
  ask: asked,
  keyOf: (id) => id,
  pullIds: [...pullIds].slice(0, TREND_PULLS_MAX).sort((a, b) => a - b),
});

/** What this search finds in each of the other archives, as far as there is room. */
async function othersFor(
  query: SearchQuery,
  room: number,
  isStopped: () => boolean,
): Promise<{ readonly parts: readonly Part[]; readonly notJudged: number }> {
  const { files } = await askedOfWindow();
  const parts: Part[] = [];
  let notJudged = 0;
  for (const file of files) {
    const ask: Ask = async (name, payload) => {
      const answer = await requestElsewhere(file.sign, name as ReadElsewhere, payload as never);
      if (!answer.ok) throw new Refused(answer.fault);
      return answer.value as never;
    };
    const found = { query, order: NEWEST_FIRST };
    if (needsVerdicts(found)) await judgeThere(ask, isStopped);
    const { pullIds, setsNotJudged: more } = await ask('archive.found', found);
    notJudged += more;
    const left = room - parts.reduce((sum, one) => sum + one.pullIds.length, 0);
    parts.push({ ...OWN([...pullIds].slice(0, left)), ask, keyOf: (id) => keyElsewhere(file, id) });
  }
  return { parts, notJudged };
}

/** Sets judged with one answer, so that none takes long. */
const JUDGED_AT_ONCE = 5;

/** In memory, as long as that archive is open: it is asked what it finds right behind. */
async function judgeThere(ask: Ask, isStopped: () => boolean): Promise<void> {
  for (let left = 1; left > 0 && !isStopped();) {
    const done = await ask('archive.judge-sets', { limit: JUDGED_AT_ONCE });
    left = done.judged === 0 ? 0 : done.left;
  }
}

async function askedOfWindow(): Promise<PageReplyOf<'window.other-archives'>> {
  const answer = await request('window.other-archives', {});
  if (!answer.ok) throw new Refused(answer.fault);
  return answer.value;
}

/** The first points are drawn one by one, then what has come in so long: each time everything is drawn anew. */
const AT_ONCE = 10;
const DRAWN_EVERY_MS = 700;
let generation = 0;

let parts: readonly Part[] = [];

/** Begins with these, and with what `others` finds elsewhere; or goes on with those that are still to be evaluated. */
export async function gather(
  pullIds: readonly number[],
  anew: boolean,
  others: SearchQuery | null = null,
): Promise<void> {
  const own = ++generation;
  fault.value = null;
  setsJudged.value = null;
  isWhole.value = false;
  isGathering.value = true;
  const came: TrendPull[] = [];
  let drawnAt = 0;
  const take = (): void => {
    if (own === generation && came.length > 0) pulls.value = [...pulls.value, ...came];
    came.length = 0;
    drawnAt = performance.now();
  };
  const isStopped = (): boolean => own !== generation;
  try {
    if (anew) {
      pulls.value = [];
      sets.value = [];
      judged = [];
      const first = OWN(pullIds);
      setsNotJudged.value = 0;
      const more =
        others === null ? null : await othersFor(others, TREND_PULLS_MAX - first.pullIds.length, isStopped);
      if (isStopped()) return;
      parts = [first, ...(more?.parts ?? [])];
      setsNotJudged.value = more?.notJudged ?? 0;
      wanted.value = parts.flatMap((part) => part.pullIds.map(part.keyOf));
    }
    const last = pulls.value.at(-1)?.pullId;
    const done = last === undefined ? 0 : wanted.value.indexOf(last) + 1;
    const rest = new Set(wanted.value.slice(done));
    for (const { ask, keyOf, pullIds: its } of parts) {
      const left = its.filter((pullId) => rest.has(keyOf(pullId)));
      for await (const pull of trendPulls({ ask, pullIds: left, isStopped })) {
        came.push(keyed(pull, keyOf));
        if (pulls.value.length < AT_ONCE || performance.now() - drawnAt > DRAWN_EVERY_MS) take();
      }
    }
    take();
    if (isStopped()) return;
    const left = new Set(setsOf(pulls.value));
    const all = left.size;
    for (const { setId } of judged) left.delete(setId);
    const tell = (): void => {
      if (all > 0) setsJudged.value = { done: judged.length, all };
    };
    tell();
    for (const { ask, keyOf } of parts) {
      const its = [...left].filter((setId) => keyOf(numberOfPull(setId)) === setId).map(numberOfPull);
      for (const setId of its) {
        const one = await judgedOrRefused(ask, setId, keyOf);
        if (isStopped()) return;
        judged.push(one.set);
        if (one.fault !== null) fault.value = one.fault;
        tell();
      }
    }
    sets.value = judged;
    isWhole.value = true;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    if (own === generation) {
      fault.value = error.fault;
      sets.value = [...judged];
    }
  } finally {
    take();
    if (own === generation) isGathering.value = false;
  }
}

/** Nobody answered for the set: it is asked again when somebody goes on. */
const isOfNoSet = ({ code }: Fault): boolean => code.startsWith('recorder-') || code === 'archive-not-open';

/** A set that is refused keeps the others from nothing: no verdict is known of its pulls, and the fault says why. */
async function judgedOrRefused(
  ask: Ask,
  id: number,
  keyOf: Part['keyOf'],
): Promise<{ readonly set: JudgedSet; readonly fault: Fault | null }> {
  const setId = keyOf(id);
  try {
    const members = (await judgedSet(ask, id)).members.map(({ pullId, checks }) => ({
      pullId: pullId === null ? null : keyOf(pullId),
      checks,
    }));
    return { set: { setId, members }, fault: null };
  } catch (error) {
    if (!(error instanceof Refused) || isOfNoSet(error.fault)) throw error;
    const its = pulls.value.filter((pull) => pull.setId === setId);
    return {
      set: { setId, members: its.map(({ pullId }) => ({ pullId, checks: null })) },
      fault: error.fault,
    };
  }
}

/** With the numbers that the page has for its pull and its set. */
const keyed = (pull: TrendPull, keyOf: (id: number) => number): TrendPull => ({
  ...pull,
  pullId: keyOf(pull.pullId),
  setId: pull.setId === null ? null : keyOf(pull.setId),
});

/** What has come stays. */
export function stopGathering(): void {
  generation++;
  isGathering.value = false;
  sets.value = [...judged];
}
