/** Ranges of a plot zoomed about a place and moved, within bounds that leave the picture a picture. Pure. */
import type { OverlayRange } from '../../core/drawing/overlay-plot.ts';

type Range = OverlayRange['x'];

/** Part of the whole that is still shown, and how many times the whole at most. */
const SPAN_PART_MIN = 1e-6;
const SPAN_PART_MAX = 4;

/** `by` above 1 shows less. `at`: place that stays where it is, as part of the span. */
function zoomedOne({ min, max }: Range, whole: Range, by: number, at: number): Range {
  const span = max - min;
  const wholeSpan = whole.max - whole.min;
  const wanted = Math.min(Math.max(span / by, wholeSpan * SPAN_PART_MIN), wholeSpan * SPAN_PART_MAX);
  const from = min + at * (span - wanted);
  return { min: from, max: from + wanted };
}

/** `x`, `y`: part of the span from the left and from the bottom; null leaves that direction as it is. */
export function zoomed(
  range: OverlayRange,
  whole: OverlayRange,
  by: number,
  at: { readonly x: number | null; readonly y: number | null },
): OverlayRange {
  return {
    x: at.x === null ? range.x : zoomedOne(range.x, whole.x, by, at.x),
    y: at.y === null ? range.y : zoomedOne(range.y, whole.y, by, at.y),
  };
}

/** Moved by parts of the span: what lies further right comes in for x above zero. The whole never leaves wholly. */
export function moved(range: OverlayRange, whole: OverlayRange, x: number, y: number): OverlayRange {
  return { x: movedOne(range.x, whole.x, x), y: movedOne(range.y, whole.y, y) };
}

function movedOne({ min, max }: Range, whole: Range, part: number): Range {
  const span = max - min;
  const from = Math.min(Math.max(min + part * span, whole.min - span * 0.9), whole.max - span * 0.1);
  return { min: from, max: from + span };
}

/** The range with this place inside, moved no more than needed. */
export function within(range: OverlayRange, x: number, y: number): OverlayRange {
  return { x: withinOne(range.x, x), y: withinOne(range.y, y) };
}

function withinOne({ min, max }: Range, at: number): Range {
  if (!Number.isFinite(at) || (at >= min && at <= max)) return { min, max };
  const span = max - min;
  const from = at < min ? at - span * 0.1 : at - span * 0.9;
  return { min: from, max: from + span };
}
