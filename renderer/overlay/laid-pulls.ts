/**
 * The pulls that are laid over each other, in the order in which they were marked: first what draws them (a short one
 * whole, of a long one its outline), then what was found on the long ones, then their readings, block by block while the
 * page goes on. Readings are held whole, since figures are read from them; what is drawn of them is the picture's matter.
 */
import { computed, signal } from '@preact/signals';
import { OVERLAY_READINGS_MAX, type OverlayPull } from '../../core/drawing/overlay-plot.ts';
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import { fileOfPull, numberOfPull } from '../store/elsewhere.ts';
import { words } from '../words/words.ts';
import {
  type DrawablePull,
  type OutlinedDrawing,
  type ReadPull,
  drawablePull,
  onRecordedCurve,
} from './read-pull.ts';

/** Pulls that are asked for at a time: one is evaluated while the next is read. */
const AT_A_TIME = 2;

export interface LaidPull {
  readonly pullId: number;
  /** Null until it is known. */
  readonly name: string | null;
  readonly state: 'waiting' | 'reading' | 'ready' | 'failed';
  /** Why it can't be drawn, or what is to be known of it; told when it is drawn. */
  readonly words: (() => string | null) | null;
  /** Of a long one that is being read its outline. */
  readonly pull: OverlayPull | null;
  /** Readings of a long one, all of which will be held. */
  readonly total?: number;
  /** Part of the readings that is here, 0 to 1; absent where none is asked for yet. */
  readonly part?: number;
  readonly origin?: ReadingsOrigin | undefined;
}

/** What its legend calls it. */
export const nameOfLaid = ({ name, pullId }: LaidPull): string =>
  name ?? words.value.set.pullNumber(String(numberOfPull(pullId)));

export const laid = signal<readonly LaidPull[]>([]);

let asked = 0;

/** Curves that are drawn from their outline, or not at all yet. */
export const stillRead = computed(
  () => laid.value.filter(({ state }) => state === 'waiting' || state === 'reading').length,
);

/** Lays these; what is held of them already is not read again. */
export async function lay(pullIds: readonly number[]): Promise<void> {
  const own = ++asked;
  const held = new Map(laid.value.map((one) => [one.pullId, one]));
  laid.value = pullIds.map((pullId) => {
    const before = held.get(pullId);
    return before?.state === 'ready'
      ? before
      : {
          pullId,
          name: null,
          state: 'waiting',
          words: null,
          pull: null,
        };
  });
  const waiting = laid.value.filter(({ state }) => state === 'waiting').map(({ pullId }) => pullId);
  const long: LongPull[] = [];
  await someAtATime(waiting, own, async (pullId) => {
    const one = await drawFirst(pullId, own);
    if (one !== null) long.push(one);
  });
  await someAtATime([...long], own, async ({ pullId, its, outline }) => {
    const found = onRecordedCurve(await its.evaluation());
    if (found !== null) say(pullId, own, { pull: named(outline(found)) });
  });
  await someAtATime([...long], own, async ({ pullId, its }) => {
    sayRead(pullId, own, await its.whole((part) => say(pullId, own, { part })));
  });
}

async function someAtATime<T>(all: T[], own: number, work: (one: T) => Promise<void>): Promise<void> {
  const worker = async (): Promise<void> => {
    for (let next = all.shift(); next !== undefined && own === asked; next = all.shift()) await work(next);
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, worker));
}

/** Lets go of everything: a million readings are not kept for nothing. */
export function layNothing(): void {
  asked++;
  laid.value = [];
}

function say(pullId: number, own: number, change: Partial<LaidPull>): void {
  if (own !== asked) return;
  laid.value = laid.value.map((one) => (one.pullId === pullId ? { ...one, ...change } : one));
}

/** In the legend, and in a picture that is taken elsewhere, a pull of another archive says which that is. */
function nameWithFile(pullId: number, name: string): string {
  const file = fileOfPull(pullId);
  return file === null ? name : `${name} · ${file.name}`;
}

const named = (pull: OverlayPull): OverlayPull => ({ ...pull, name: nameWithFile(pull.pullId, pull.name) });

/** One of which there is an outline only. */
interface LongPull {
  readonly pullId: number;
  readonly its: DrawablePull;
  readonly outline: OutlinedDrawing;
}

/** What draws it; handed back where its readings are still to be read. */
async function drawFirst(pullId: number, own: number): Promise<LongPull | null> {
  say(pullId, own, { state: 'reading' });
  const drawable = await drawablePull(pullId, {
    room: () => OVERLAY_READINGS_MAX - laid.value.reduce((sum, one) => sum + readingsHeld(one), 0),
    isWanted: () => own === asked,
    onNamed: (known) => say(pullId, own, { ...known, name: nameWithFile(pullId, known.name) }),
  });
  if (!drawable.ok) {
    say(pullId, own, { state: 'failed', words: drawable.why });
    return null;
  }
  const { its } = drawable;
  const outline = await its.outline();
  if (own !== asked) return null;
  if (outline === null) {
    sayRead(pullId, own, await its.whole());
    return null;
  }
  say(pullId, own, { pull: named(outline(null)), total: drawable.readingCount });
  return { pullId, its, outline };
}

/** All of its readings count from the moment that it is known how many they are. */
const readingsHeld = ({ pull, total }: LaidPull): number => total ?? pull?.curve.length ?? 0;

function sayRead(pullId: number, own: number, read: ReadPull): void {
  say(
    pullId,
    own,
    read.ok
      ? { state: 'ready', words: read.words, pull: named(read.pull) }
      : { state: 'failed', words: read.why, pull: null },
  );
}
