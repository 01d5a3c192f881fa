/** A kept pull read whole, with its evaluation, as a picture of curves takes it; or why it can't be drawn. */
import type { Answer, Fault, ReplyOf } from '../../core/contract/index.ts';
import type { Curve } from '../../core/curve/curve.ts';
import type { OverlayPull } from '../../core/drawing/overlay-plot.ts';
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { FollowedPull } from '../store/followed-pull.ts';
import { outlinedPull } from '../store/pull-outline.ts';
import { request } from '../store/session-store.ts';
import { readAnewText } from '../stations/evaluation/read-anew-text.ts';
import { type ToldWhenDrawn, told } from '../words/told.ts';
import { words } from '../words/words.ts';

export type ReadPull =
  /** `words`: what is to be known of it though it is drawn. */
  | { readonly ok: true; readonly pull: OverlayPull; readonly words: () => string | null }
  | { readonly ok: false; readonly why: ToldWhenDrawn };

export interface ReadingOfPull {
  /** Readings that there is still room for, asked when it is known how many it has. */
  readonly room: () => number;
  /** False where it is no longer looked at: it is not read to its end then. */
  readonly isWanted: () => boolean;
  readonly onNamed: (known: { readonly name: string; readonly origin: ReadingsOrigin | undefined }) => void;
}

/** A pull that can be drawn, and what is read of it next. */
export interface DrawablePull {
  /** What draws the same picture of a long one, before all else; null where its readings come as soon. */
  readonly outline: () => Promise<OutlinedDrawing | null>;
  /** Asked for once, whoever asks. */
  readonly evaluation: () => Promise<Answer<ReplyOf<'pull.evaluate'>>>;
  /** `onPart`: part of its readings that is here, 0 to 1. */
  readonly whole: (onPart?: (part: number) => void) => Promise<ReadPull>;
}

export type OutlinedDrawing = (evaluation: Evaluation | null) => OverlayPull;

type Drawable =
  | { readonly ok: true; readonly its: DrawablePull; readonly readingCount: number }
  | { readonly ok: false; readonly why: ToldWhenDrawn };

/** Whole, with its evaluation. */
export async function readPull(pullId: number, reading: ReadingOfPull): Promise<ReadPull> {
  const drawable = await drawablePull(pullId, reading);
  return drawable.ok ? drawable.its.whole() : drawable;
}

export async function drawablePull(
  pullId: number,
  { room, isWanted, onNamed }: ReadingOfPull,
): Promise<Drawable> {
  const answer = await request('pull.get', { pullId });
  if (!answer.ok) return { ok: false, why: toldLater(answer.fault) };
  const kept = answer.value;
  const { specimenName: name, readingCount, typed, state, readings: origin } = kept;
  onNamed({ name, origin });
  if (typed !== null || readingCount === 0) return { ok: false, why: () => words.value.look.noCurve };
  if (state !== 'ended') return { ok: false, why: () => words.value.look.stillRecorded };
  if (readingCount > room()) return { ok: false, why: () => words.value.look.tooManyReadings };
  let evaluated: ReturnType<DrawablePull['evaluation']> | null = null;
  const evaluation = () => (evaluated ??= request('pull.evaluate', { pullId }));
  return {
    ok: true,
    readingCount,
    its: {
      evaluation,
      outline: async () => {
        const outlined = await request('pull.outline', { pullId });
        if (!outlined.ok || outlined.value.outline === null) return null;
        const outline = outlinedPull(outlined.value.outline);
        const { gaps, triggerSeq } = outline.numbered(kept);
        const curve = curveFrom(outline.columns, gaps);
        return (found) => ({
          pullId,
          name,
          curve,
          evaluation: found === null ? null : placedBy(found, outline.placeOf),
          from: triggerSeq ?? 0,
          origin,
          isOutline: true,
        });
      },
      whole: async (onPart) => {
        const followed = new FollowedPull({ request }, pullId, () => {
          if (!isWanted()) followed.close();
          else onPart?.(followed.columns.length / readingCount);
        });
        const [found] = await Promise.all([evaluation(), followed.catchUp()]);
        if (followed.fault !== null) return { ok: false, why: toldLater(followed.fault) };
        return {
          ok: true,
          words: found.ok ? () => readAnewText(found.value) : toldLater(found.fault),
          pull: {
            pullId,
            name,
            curve: curveFrom(followed.columns, kept.gaps),
            evaluation: onRecordedCurve(found),
            from: kept.triggerSeq ?? 0,
            origin,
          },
        };
      },
    },
  };
}

const toldLater =
  ({ sentence }: Fault): ToldWhenDrawn =>
  () =>
    told(sentence);

/** Found on lines that were read again, nothing of it has a place on the recorded curve. */
export const onRecordedCurve = (found: Answer<ReplyOf<'pull.evaluate'>>): Evaluation | null =>
  found.ok && found.value.readBy === undefined ? found.value : null;

/** With its marks and its fit at their places in another numbering. */
function placedBy(found: Evaluation, placeOf: (reading: number) => number): Evaluation {
  const { slope, marks } = found;
  const placed: Record<string, number> = {};
  for (const [name, reading] of Object.entries<number>({ ...marks })) placed[name] = placeOf(reading);
  return {
    ...found,
    marks: placed,
    ...(slope === undefined
      ? {}
      : { slope: { ...slope, fromIndex: placeOf(slope.fromIndex), toIndex: placeOf(slope.toIndex) } }),
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
