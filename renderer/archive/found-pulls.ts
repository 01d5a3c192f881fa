/**
 * What a search has found: the numbers of all pulls in their order, and of the lines and pictures only those that were
 * looked at lately. Answers to an earlier search are thrown away.
 */
import { batch, signal } from '@preact/signals';
import { z } from 'zod';
import type { Fault } from '../../core/contract/index.ts';
import {
  needsVerdicts,
  type FoundPull,
  type IndexProgress,
  NEWEST_FIRST,
  type SEARCH_COLUMNS,
  type SavedSearch,
  type SearchOrder,
  type SearchQuery,
  THUMBNAILS_PER_REQUEST_MAX,
  searchOrder,
} from '../../core/contract/search-requests.ts';
import { remember, remembered } from '../store/remembered.ts';
import { archiveGeneration, request } from '../store/session-store.ts';
import { EMPTY_SEARCH, type SearchDraft } from './search-draft.ts';

/** Lines and pictures held; far more than a screen shows. */
const HELD_MAX = 3_000;
/** Sets judged by one request. */
const SETS_AT_ONCE = 5;

export const FOUND_COLUMNS = [
  'picture',
  'specimen',
  'when',
  'peak',
  'strength',
  'verdict',
  'broke',
  'set',
  'operator',
  'readings',
  'questionable',
  'unrounded',
  'yield',
  'elongation',
  'rules',
  'baseMetal',
  'filler',
  'heat',
  'lot',
  'welder',
] as const;
export type FoundColumn = (typeof FOUND_COLUMNS)[number];

/** By which order of the archive a column sorts; pictures have none. */
export const SORTS: Readonly<Record<FoundColumn, (typeof SEARCH_COLUMNS)[number] | null>> = {
  picture: null,
  specimen: 'specimen',
  when: 'started',
  peak: 'peak',
  strength: 'strength',
  set: 'set',
  operator: 'operator',
  verdict: 'verdict',
  broke: 'broke',
  readings: 'readings',
  questionable: 'questionable',
  unrounded: 'strength',
  yield: 'yield',
  elongation: 'elongation',
  rules: 'rules',
  baseMetal: 'base-metal',
  filler: 'filler',
  heat: 'heat',
  lot: 'filler-lot',
  welder: 'welder',
};

const COLUMNS_KEY = 'gaugemark.archive-columns';
const ORDER_KEY = 'gaugemark.archive-order';
const USUAL: readonly FoundColumn[] = [
  'picture',
  'specimen',
  'when',
  'peak',
  'strength',
  'verdict',
  'broke',
  'operator',
];

export const draft = signal<SearchDraft>(EMPTY_SEARCH);
export const columns = signal<readonly FoundColumn[]>(
  remembered(COLUMNS_KEY, z.array(z.enum(FOUND_COLUMNS)), USUAL),
);
export const order = signal<SearchOrder>(remembered(ORDER_KEY, searchOrder, NEWEST_FIRST));
/** Null until the archive has answered. */
export const found = signal<Float64Array | null>(null);
/** Null where every pull can be found. */
export const indexLeft = signal<IndexProgress | null>(null);
export const fault = signal<Fault | null>(null);
export const lines = signal<ReadonlyMap<number, FoundPull>>(new Map());
export const pictures = signal<ReadonlyMap<number, Uint8Array>>(new Map());
export const saved = signal<readonly SavedSearch[]>([]);
/** Sets that are still to be judged for a verdict that is asked for; null where none is. */
export const setsLeft = signal<number | null>(null);

/** What was chosen is remembered from now on. */
export function rememberFoundColumns(): void {
  remember(COLUMNS_KEY, () => columns.value);
  remember(ORDER_KEY, () => order.value);
}

/** Grows when lines that are held have to be read again, and when they have been. */
export const linesStand = signal(0);
/** Lines that may say something else by now: shown until they are read again. */
const stale = new Set<number>();
/** The archive that lines and pictures are of. */
let heldOf = archiveGeneration.peek();

let asked = 0;

/** Asks for everything that fits. `fresh`: what was held may have changed. */
export async function find(query: SearchQuery, fresh: boolean): Promise<void> {
  const own = ++asked;
  // That nothing is kept was so when it was asked last.
  if (fresh && found.peek()?.length === 0) found.value = null;
  const answer = await request('archive.found', { query, order: order.value });
  if (own !== asked) return;
  batch(() => {
    fault.value = answer.ok ? null : answer.fault;
    if (answer.ok) {
      takeFound(answer.value.pullIds);
      indexLeft.value = answer.value.index;
    }
    if (fresh) readAgain();
  });
  if (needsVerdicts({ query, order: order.value })) await judge(query, own);
}

/** The same pulls in the same order are left as they are: nothing is drawn anew. */
function takeFound(pullIds: Float64Array): void {
  const before = found.value;
  if (before?.length === pullIds.length && before.every((id, i) => id === pullIds[i])) return;
  found.value = pullIds;
}

/** What is held is asked for again where it is looked at, and shown until then; of another archive nothing is. */
function readAgain(): void {
  if (heldOf !== archiveGeneration.peek()) {
    heldOf = archiveGeneration.peek();
    stale.clear();
    lines.value = new Map();
    pictures.value = new Map();
  }
  for (const id of lines.value.keys()) stale.add(id);
  // An answer that is under way may be from before.
  for (const id of linesUnderWay) stale.add(id);
  linesStand.value++;
}

/** Verdicts that are not known yet are judged a few sets at a time, and what is found grows meanwhile. */
async function judge(query: SearchQuery, own: number): Promise<void> {
  for (;;) {
    const done = await request('archive.judge-sets', { limit: SETS_AT_ONCE });
    if (own !== asked || !done.ok || done.value.judged === 0) break;
    setsLeft.value = done.value.left;
    const answer = await request('archive.found', { query, order: order.value });
    if (own !== asked) break;
    if (answer.ok)
      batch(() => {
        takeFound(answer.value.pullIds);
        readAgain();
      });
    if (done.value.left === 0) break;
  }
  setsLeft.value = null;
}

const linesUnderWay = new Set<number>();
const picturesUnderWay = new Set<number>();

/** Lines of these pulls, where they are not held or may be others by now. */
export async function needLines(pullIds: readonly number[]): Promise<void> {
  const missing = pullIds.filter((id) => (!lines.value.has(id) || stale.has(id)) && !linesUnderWay.has(id));
  if (missing.length === 0) return;
  const again = missing.some((id) => stale.has(id));
  for (const id of missing) {
    linesUnderWay.add(id);
    stale.delete(id);
  }
  const of = archiveGeneration.peek();
  const answer = await request('archive.lines', { pullIds: missing });
  for (const id of missing) linesUnderWay.delete(id);
  batch(() => {
    if (answer.ok && of === archiveGeneration.peek()) hold(answer.value.items);
    if (again || missing.some((id) => stale.has(id))) linesStand.value++;
  });
}

function hold(items: readonly FoundPull[]): void {
  lines.value = held(
    lines.value,
    items.map((one) => [one.pullId, one] as const),
  );
}

let judgedFor = 0;

/**
 * Verdicts of these pulls where nobody has judged since something changed that they rest on: a few sets at a time, until
 * others are looked at or no more can be judged now. One that is still not known is shown as that.
 */
export async function needVerdicts(pullIds: readonly number[]): Promise<void> {
  const own = ++judgedFor;
  const unknown = (): number[] => pullIds.filter((id) => lines.value.get(id)?.verdictKnown !== true);
  for (let before = Infinity, left = unknown(); left.length > 0 && left.length < before; left = unknown()) {
    before = left.length;
    const answer = await request('archive.lines', { pullIds: left, judge: SETS_AT_ONCE });
    if (own !== judgedFor || !answer.ok) return;
    hold(answer.value.items);
  }
}

/** Pictures of these pulls, where they are not held. */
export async function needPictures(pullIds: readonly number[]): Promise<void> {
  const missing = pullIds
    .filter((id) => !pictures.value.has(id) && !picturesUnderWay.has(id))
    .slice(0, THUMBNAILS_PER_REQUEST_MAX);
  if (missing.length === 0) return;
  for (const id of missing) picturesUnderWay.add(id);
  const of = archiveGeneration.peek();
  const answer = await request('archive.thumbnails', { pullIds: missing });
  for (const id of missing) picturesUnderWay.delete(id);
  if (!answer.ok || of !== archiveGeneration.peek()) return;
  pictures.value = held(
    pictures.value,
    answer.value.curves.map((one) => [one.pullId, one.bytes] as const),
  );
}

function held<T>(
  before: ReadonlyMap<number, T>,
  more: readonly (readonly [number, T])[],
): ReadonlyMap<number, T> {
  return new Map([...before, ...more].slice(-HELD_MAX));
}

export async function loadSaved(): Promise<void> {
  const answer = await request('archive.saved-searches', {});
  if (answer.ok) saved.value = answer.value.searches;
}

export async function save(search: SavedSearch): Promise<void> {
  const answer = await request('archive.save-search', search);
  fault.value = answer.ok ? null : answer.fault;
  await loadSaved();
}

export async function forget(name: string): Promise<void> {
  const answer = await request('archive.forget-search', { name });
  fault.value = answer.ok ? null : answer.fault;
  await loadSaved();
}
