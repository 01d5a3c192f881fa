/** Ranges of a plot zoomed about a place and moved, within bounds that leave the picture a picture. Pure. */
import type { PlotRange } from '../../core/drawing/plot-input.ts';

type Range = PlotRange['x'];

/** Part of the whole that is still shown; more than the whole never is. */
const SPAN_PART_MIN = 1e-6;

/** `by` above 1 shows less. `at`: place that stays where it is, as part of the span. */
function zoomedOne({ min, max }: Range, whole: Range, by: number, at: number): Range {
  const span = max - min;
  const wholeSpan = whole.max - whole.min;
  const wanted = Math.min(Math.max(span / by, wholeSpan * SPAN_PART_MIN), wholeSpan);
  const from = min + at * (span - wanted);
  return { min: from, max: from + wanted };
}

/** `x`, `y`: part of the span from the left and from the bottom; null leaves that direction as it is. */
export function zoomed(
  range: PlotRange,
  whole: PlotRange,
  by: number,
  at: { readonly x: number | null; readonly y: number | null },
): PlotRange {
  return {
    x: at.x === null ? range.x : zoomedOne(range.x, whole.x, by, at.x),
    y: at.y === null ? range.y : zoomedOne(range.y, whole.y, by, at.y),
  };
}

/** Nothing of the whole is left out by its size: zoomed out so far, a picture shows everything again. */
export const isAsWide = (range: PlotRange, whole: PlotRange): boolean =>
  spanOf(range.x) >= spanOf(whole.x) && spanOf(range.y) >= spanOf(whole.y);

const spanOf = ({ min, max }: Range): number => max - min;

/** Moved by parts of the span: what lies further right comes in for x above zero. The whole never leaves wholly. */
export function moved(range: PlotRange, whole: PlotRange, x: number, y: number): PlotRange {
  return { x: movedOne(range.x, whole.x, x), y: movedOne(range.y, whole.y, y) };
}

function movedOne({ min, max }: Range, whole: Range, part: number): Range {
  const span = max - min;
  const from = Math.min(Math.max(min + part * span, whole.min - span * 0.9), whole.max - span * 0.1);
  return { min: from, max: from + span };
}

/** The range with this place inside, moved no more than needed. */
export function within(range: PlotRange, x: number, y: number): PlotRange {
  return { x: withinOne(range.x, x), y: withinOne(range.y, y) };
}

function withinOne({ min, max }: Range, at: number): Range {
  if (!Number.isFinite(at) || (at >= min && at <= max)) return { min, max };
  const span = max - min;
  const from = at < min ? at - span * 0.1 : at - span * 0.9;
  return { min: from, max: from + span };
}
