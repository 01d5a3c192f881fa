/** A kept pull read whole, with its evaluation, as a picture of curves takes it; or why it can't be drawn. */
import type { Curve } from '../../core/curve/curve.ts';
import type { OverlayPull } from '../../core/drawing/overlay-plot.ts';
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import { FollowedPull } from '../store/followed-pull.ts';
import { request } from '../store/session-store.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';

export type ReadPull =
  /** `words`: what is to be known of it though it is drawn. */
  | { readonly ok: true; readonly pull: OverlayPull; readonly words: string | null }
  | { readonly ok: false; readonly why: string };

export interface ReadingOfPull {
  /** Readings that there is still room for, asked when it is known how many it has. */
  readonly room: () => number;
  /** False where it is no longer looked at: it is not read to its end then. */
  readonly isWanted: () => boolean;
  readonly onNamed: (known: { readonly name: string; readonly origin: ReadingsOrigin | undefined }) => void;
}

export async function readPull(
  pullId: number,
  { room, isWanted, onNamed }: ReadingOfPull,
): Promise<ReadPull> {
  const text = words.value.look;
  const kept = await request('pull.get', { pullId });
  if (!kept.ok) return { ok: false, why: told(kept.fault.sentence) };
  const { specimenName: name, readingCount, gaps, triggerSeq, typed, state, readings: origin } = kept.value;
  onNamed({ name, origin });
  if (typed !== null || readingCount === 0) return { ok: false, why: text.noCurve };
  if (state !== 'ended') return { ok: false, why: text.stillRecorded };
  if (readingCount > room()) return { ok: false, why: text.tooManyReadings };
  const followed = new FollowedPull({ request }, pullId, () => {
    if (!isWanted()) followed.close();
  });
  const [evaluation] = await Promise.all([request('pull.evaluate', { pullId }), followed.catchUp()]);
  if (followed.fault !== null) return { ok: false, why: told(followed.fault.sentence) };
  return {
    ok: true,
    words: !evaluation.ok
      ? told(evaluation.fault.sentence)
      : evaluation.value.readBy === undefined
        ? null
        : words.value.evaluation.readAnew(evaluation.value.readBy),
    pull: {
      pullId,
      name,
      curve: curveFrom(followed.columns, gaps),
      // Found on lines that were read again, nothing of it has a place on the recorded curve.
      evaluation: evaluation.ok && evaluation.value.readBy === undefined ? evaluation.value : null,
      from: triggerSeq ?? 0,
      origin,
    },
  };
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
