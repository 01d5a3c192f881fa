/** The outline of a long kept pull as a curve that can be drawn, with its record in the numbering of that curve. */
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import { firstPlaceFrom } from '../../core/curve/first-place-from.ts';
import { CurveColumns } from './curve-columns.ts';

export interface OutlinedPull {
  /** Readings of the whole pull: with so many the outline has served. */
  readonly total: number;
  readonly columns: CurveColumns;
  /** Of a reading of the pull in `columns`, or of the next that is kept. */
  readonly placeOf: (reading: number) => number;
  /** The same record with trigger, break and gaps at their places in `columns`. */
  readonly numbered: (kept: KeptPull) => KeptPull;
}

export function outlinedPull({
  total,
  readings,
  elapsedUs,
  force,
  abscissa,
  along,
}: NonNullable<ReplyOf<'pull.outline'>['outline']>): OutlinedPull {
  const columns = new CurveColumns();
  columns.append({
    firstSeq: 0,
    count: readings.length,
    elapsedUs,
    channels: [
      { quantity: 'force', value: force },
      ...(abscissa === null || along === null ? [] : [{ quantity: abscissa, value: along }]),
    ],
  });
  const placeOf = (reading: number): number => firstPlaceFrom(readings, reading);
  const placeOrNone = (reading: number | null): number | null => (reading === null ? null : placeOf(reading));
  return {
    total,
    columns,
    placeOf,
    numbered: (kept) => ({
      ...kept,
      triggerSeq: placeOrNone(kept.triggerSeq),
      breakSeq: placeOrNone(kept.breakSeq),
      gaps: kept.gaps.map((gap) => ({ ...gap, beforeSeq: placeOf(gap.beforeSeq) })),
    }),
  };
}
