/**
 * The pulls that are laid over each other, read block by block while the page goes on: first those that were marked
 * first. Readings are held whole, since figures are read from them; what is drawn of them is the picture's matter.
 */
import { signal } from '@preact/signals';
import { OVERLAY_READINGS_MAX, type OverlayPull } from '../../core/drawing/overlay-plot.ts';
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import { fileOfPull, numberOfPull } from '../store/elsewhere.ts';
import { words } from '../words/words.ts';
import { readPull } from './read-pull.ts';

/** Pulls that are asked for at a time: one is evaluated while the next is read. */
const AT_A_TIME = 2;

export interface LaidPull {
  readonly pullId: number;
  readonly name: string;
  readonly state: 'waiting' | 'reading' | 'ready' | 'failed';
  /** Why it can't be drawn. */
  readonly words: string | null;
  readonly pull: OverlayPull | null;
  readonly origin?: ReadingsOrigin | undefined;
}

export const laid = signal<readonly LaidPull[]>([]);

let asked = 0;

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
          name: words.value.set.pullNumber(String(numberOfPull(pullId))),
          state: 'waiting',
          words: null,
          pull: null,
        };
  });
  const waiting = laid.value.filter(({ state }) => state === 'waiting').map(({ pullId }) => pullId);
  const work = async (): Promise<void> => {
    for (let next = waiting.shift(); next !== undefined && own === asked; next = waiting.shift())
      await readIn(next, own);
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, work));
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

async function readIn(pullId: number, own: number): Promise<void> {
  say(pullId, own, { state: 'reading' });
  const read = await readPull(pullId, {
    room: () =>
      OVERLAY_READINGS_MAX - laid.value.reduce((sum, one) => sum + (one.pull?.curve.length ?? 0), 0),
    isWanted: () => own === asked,
    onNamed: (known) => say(pullId, own, { ...known, name: nameWithFile(pullId, known.name) }),
  });
  say(
    pullId,
    own,
    read.ok
      ? {
          state: 'ready',
          words: read.words,
          pull: { ...read.pull, name: nameWithFile(pullId, read.pull.name) },
        }
      : { state: 'failed', words: read.why },
  );
}
