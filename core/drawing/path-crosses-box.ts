/** Whether a path runs through a box, as a curve through the place of a word. */
import type { Box } from './drawing.ts';

/** Points as x, y, x, y, …; `lifts` holds the numbers of the points at which the pen is set down anew. */
export interface Path {
  readonly points: readonly number[];
  readonly lifts: readonly number[];
}

export function pathCrossesBox({ points, lifts }: Path, box: Box): boolean {
  const starts = new Set(lifts);
  for (let i = 1; 2 * i + 1 < points.length; i++) {
    if (starts.has(i)) continue;
    const [x1, y1] = [points[2 * i - 2] ?? 0, points[2 * i - 1] ?? 0];
    if (segmentCrossesBox(x1, y1, points[2 * i] ?? 0, points[2 * i + 1] ?? 0, box)) return true;
  }
  return false;
}

/** The part of the segment that is left after each side of the box has cut off what is outside of it. */
function segmentCrossesBox(x1: number, y1: number, x2: number, y2: number, box: Box): boolean {
  let from = 0;
  let to = 1;
  for (const [start, step, least, most] of [
    [x1, x2 - x1, box.x, box.x + box.width],
    [y1, y2 - y1, box.y, box.y + box.height],
  ] as const) {
    if (step === 0) {
      if (start < least || start > most) return false;
      continue;
    }
    const a = (least - start) / step;
    const b = (most - start) / step;
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
  }
  return from <= to;
}
