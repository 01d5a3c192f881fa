/**
 * The pulls that are laid over each other, read block by block while the page goes on: first those that were marked
 * first. Readings are held whole, since figures are read from them; what is drawn of them is the picture's matter.
 */
import { signal } from '@preact/signals';
import type { Curve } from '../../core/curve/curve.ts';
import { OVERLAY_READINGS_MAX, type OverlayPull } from '../../core/drawing/overlay-plot.ts';
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import { FollowedPull } from '../store/followed-pull.ts';
import { request } from '../store/session-store.ts';
import { words } from '../words/words.ts';

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
          name: words.value.set.pullNumber(String(pullId)),
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

async function readIn(pullId: number, own: number): Promise<void> {
  const text = words.value.look;
  const failed = (why: string): void => say(pullId, own, { state: 'failed', words: why });
  say(pullId, own, { state: 'reading' });
  const kept = await request('pull.get', { pullId });
  if (!kept.ok) {
    failed(kept.fault.sentence);
    return;
  }
  const { specimenName: name, readingCount, gaps, triggerSeq, typed, state, readings: origin } = kept.value;
  say(pullId, own, { name, origin });
  if (typed !== null || readingCount === 0) {
    failed(text.noCurve);
    return;
  }
  if (state !== 'ended') {
    failed(text.stillRecorded);
    return;
  }
  const before = laid.value.reduce((sum, one) => sum + (one.pull?.curve.length ?? 0), 0);
  if (before + readingCount > OVERLAY_READINGS_MAX) {
    failed(text.tooManyReadings);
    return;
  }
  const followed = new FollowedPull({ request }, pullId, () => {
    // What is no longer looked at is not read to its end.
    if (own !== asked) followed.close();
  });
  const [evaluation] = await Promise.all([request('pull.evaluate', { pullId }), followed.catchUp()]);
  if (followed.fault !== null) {
    failed(followed.fault.sentence);
    return;
  }
  const { columns } = followed;
  if (own !== asked) return;
  say(pullId, own, {
    state: 'ready',
    words: !evaluation.ok
      ? evaluation.fault.sentence
      : evaluation.value.readBy === undefined
        ? null
        : words.value.evaluation.readAnew(evaluation.value.readBy),
    pull: {
      pullId,
      name,
      curve: curveFrom(columns, gaps),
      // Found on lines that were read again, nothing of it has a place on the recorded curve.
      evaluation: evaluation.ok && evaluation.value.readBy === undefined ? evaluation.value : null,
      from: triggerSeq ?? 0,
      origin,
    },
  });
}

type Columns = FollowedPull['columns'];

/** The readings of a page's columns as the curve that drawings take. */
export function curveFrom(
  columns: Columns,
  gaps: readonly { readonly beforeSeq: number; readonly words: string }[],
): Curve {
  const { length } = columns;
  // The columns have room for twice as many.
  const column = (quantity: Parameters<Columns['rawColumn']>[0]): Float64Array =>
    columns.rawColumn(quantity).slice(0, length);
  return {
    length,
    timeS: column('time'),
    ...(columns.has('force') ? { forceN: column('force') } : {}),
    ...(columns.has('extension') ? { extensionMm: column('extension') } : {}),
    ...(columns.has('travel') ? { travelMm: column('travel') } : {}),
    ...(columns.has('stress') ? { stressMpa: column('stress') } : {}),
    ...(columns.has('strain') ? { strainRatio: column('strain') } : {}),
    gaps: gaps.map(({ beforeSeq, words: cause }) => ({ beforeIndex: beforeSeq, durationS: 0, cause })),
  };
}
