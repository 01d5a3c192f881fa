/** A kept pull with its whole curve, as pictures take it. */
import { curveOfReadings } from '../../core/curve/curve-of-readings.ts';
import type { ReadingColumns } from '../../core/contract/reading.ts';
import type { OverlayPull } from '../../core/drawing/overlay-plot.ts';
import { READINGS_PER_REPLY_MAX } from '../../core/limits.ts';
import type { RecorderAccess } from './recorder-access.ts';

export type DrawablePull =
  | { readonly ok: true; readonly pull: OverlayPull }
  | { readonly ok: false; readonly name: string; readonly reason: string };

/** `room`: readings that may still be held. Throws an InputError where there is no such pull. */
export async function drawablePull(
  { ask }: Pick<RecorderAccess, 'ask'>,
  pullId: number,
  room: number,
): Promise<DrawablePull> {
  const {
    specimenName: name,
    readingCount,
    gaps,
    triggerSeq,
    typed,
    state,
    readings: origin,
  } = await ask('pull.get', { pullId });
  const no = (reason: string): DrawablePull => ({ ok: false, name, reason });
  if (typed !== null || readingCount === 0) return no('It was typed from a display and has no curve.');
  if (state !== 'ended') return no('It is still being recorded.');
  if (readingCount > room) return no('More readings together than are held at once; name fewer long pulls.');
  const blocks: ReadingColumns[] = [];
  for (let fromSeq = 0; fromSeq < readingCount;) {
    const { columns } = await ask('pull.readings', { pullId, fromSeq, count: READINGS_PER_REPLY_MAX });
    if (columns.count === 0) break;
    blocks.push(columns);
    fromSeq += columns.count;
  }
  const evaluation = await ask('pull.evaluate', { pullId });
  return {
    ok: true,
    pull: {
      pullId,
      name,
      curve: curveOfReadings(blocks, gaps),
      // Found on lines that were read again, nothing of it has a place on the recorded curve.
      evaluation: evaluation.readBy === undefined ? evaluation : null,
      from: triggerSeq ?? 0,
      origin,
    },
  };
}
