/** Whether a path runs through a box, as a curve through the place of a word. */
import type { Box } from './drawing.ts';

/** Points as x, y, x, y, …; `lifts` holds the numbers of the points at which the pen is set down anew. */
export interface Path {
  readonly points: readonly number[];
  readonly lifts: readonly number[];
}

export const pathCrossesBox = (path: Path, box: Box): boolean =>
  segmentsCrossBox(segmentsNear(path, box), box);

/** The stretches of a path whose own boxes touch this one, each as x1, y1, x2, y2: looked for once for many places of a word. */
export function segmentsNear({ points, lifts }: Path, box: Box): readonly number[] {
  const starts = new Set(lifts);
  const [right, bottom] = [box.x + box.width, box.y + box.height];
  const near: number[] = [];
  for (let i = 1; 2 * i + 1 < points.length; i++) {
    const x1 = points[2 * i - 2] ?? 0;
    const x2 = points[2 * i] ?? 0;
    // Most of a curve lies elsewhere, and is left with two comparisons.
    if ((x1 < box.x && x2 < box.x) || (x1 > right && x2 > right)) continue;
    const y1 = points[2 * i - 1] ?? 0;
    const y2 = points[2 * i + 1] ?? 0;
    if ((y1 < box.y && y2 < box.y) || (y1 > bottom && y2 > bottom) || starts.has(i)) continue;
    near.push(x1, y1, x2, y2);
  }
  return near;
}

export function segmentsCrossBox(segments: readonly number[], box: Box): boolean {
  const [right, bottom] = [box.x + box.width, box.y + box.height];
  for (let i = 0; i + 3 < segments.length; i += 4) {
    const [x1, y1] = [segments[i] ?? 0, segments[i + 1] ?? 0];
    const [x2, y2] = [segments[i + 2] ?? 0, segments[i + 3] ?? 0];
    if ((x1 < box.x && x2 < box.x) || (x1 > right && x2 > right)) continue;
    if ((y1 < box.y && y2 < box.y) || (y1 > bottom && y2 > bottom)) continue;
    if (segmentCrossesBox(x1, y1, x2, y2, box)) return true;
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
