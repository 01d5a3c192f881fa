/** A curve that is drawn, as words look for their place beside it: in the millimetres of the drawing. */
import type { Avoided } from '../../core/drawing/label-places.ts';
import type { Corners } from './stroke-trace.ts';

/** Reads the corner points where they are: a copy of twenty thousand at every drawing would be the dearest part of it. */
export function curveToAvoid({ x, y, lifts, length }: Corners, pxPerMm: number): Avoided {
  return {
    near: (box) => {
      const [left, top] = [box.x * pxPerMm, box.y * pxPerMm];
      const [right, bottom] = [left + box.width * pxPerMm, top + box.height * pxPerMm];
      const near: number[] = [];
      for (let i = 1; i < length; i++) {
        const x1 = x[i - 1] ?? 0;
        const x2 = x[i] ?? 0;
        if ((x1 < left && x2 < left) || (x1 > right && x2 > right)) continue;
        const y1 = y[i - 1] ?? 0;
        const y2 = y[i] ?? 0;
        if ((y1 < top && y2 < top) || (y1 > bottom && y2 > bottom) || lifts[i] === 1) continue;
        near.push(x1 / pxPerMm, y1 / pxPerMm, x2 / pxPerMm, y2 / pxPerMm);
      }
      return near;
    },
  };
}
