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
import { request } from '../store/session-store.ts';
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
  'rules',
  'baseMetal',
  'filler',
  'heat',
  'lot',
  'welder',
] as const;
export type FoundColumn = (typeof FOUND_COLUMNS)[number];

/** By which order of the archive a column sorts; pictures have none, and what is said of a set has that of its name. */
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
  rules: null,
  baseMetal: null,
  filler: null,
  heat: null,
  lot: null,
  welder: null,
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

let asked = 0;

/** Asks for everything that fits. `fresh`: what was held may have changed. */
export async function find(query: SearchQuery, fresh: boolean): Promise<void> {
  const own = ++asked;
  const answer = await request('archive.found', { query, order: order.value });
  if (own !== asked) return;
  batch(() => {
    fault.value = answer.ok ? null : answer.fault;
    if (answer.ok) {
      found.value = answer.value.pullIds;
      indexLeft.value = answer.value.index;
    }
    if (fresh) lines.value = new Map();
  });
  if (needsVerdicts({ query, order: order.value })) await judge(query, own);
}

/** Verdicts that are not known yet are judged a few sets at a time, and what is found grows meanwhile. */
async function judge(query: SearchQuery, own: number): Promise<void> {
  for (;;) {
    const done = await request('archive.judge-sets', { limit: SETS_AT_ONCE });
    if (own !== asked || !done.ok || done.value.judged === 0) break;
    setsLeft.value = done.value.left;
    const answer = await request('archive.found', { query, order: order.value });
    if (own !== asked) break;
    if (answer.ok) {
      lines.value = new Map();
      found.value = answer.value.pullIds;
    }
    if (done.value.left === 0) break;
  }
  setsLeft.value = null;
}

const underWay = new Set<string>();

/** Lines of these pulls, where they are not held. */
export async function needLines(pullIds: readonly number[]): Promise<void> {
  const missing = pullIds.filter((id) => !lines.value.has(id) && !underWay.has(`line ${String(id)}`));
  if (missing.length === 0) return;
  for (const id of missing) underWay.add(`line ${String(id)}`);
  const answer = await request('archive.lines', { pullIds: missing });
  for (const id of missing) underWay.delete(`line ${String(id)}`);
  if (answer.ok) hold(answer.value.items);
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
    .filter((id) => !pictures.value.has(id) && !underWay.has(`picture ${String(id)}`))
    .slice(0, THUMBNAILS_PER_REQUEST_MAX);
  if (missing.length === 0) return;
  for (const id of missing) underWay.add(`picture ${String(id)}`);
  const answer = await request('archive.thumbnails', { pullIds: missing });
  for (const id of missing) underWay.delete(`picture ${String(id)}`);
  if (!answer.ok) return;
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
