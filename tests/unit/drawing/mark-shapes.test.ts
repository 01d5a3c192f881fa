/** Words beside marks: near their mark, on no curve where there is room. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Box } from '../../../core/drawing/drawing.ts';
import { markShapes } from '../../../core/drawing/mark-shapes.ts';
import {
  type Path,
  pathCrossesBox,
  segmentsCrossBox,
  segmentsNear,
} from '../../../core/drawing/path-crosses-box.ts';

const FRAME: Box = { x: 10, y: 10, width: 120, height: 70 };
/** Up steeply, over a knee, flat to the right: what yields without a yield point. */
const CURVE = { points: [12, 78, 20, 30, 26, 26, 60, 16, 120, 14], lifts: [0] };

describe('words of a mark', () => {
  it('leave the curve to be seen where there is room beside it', () => {
    const [text] = markShapes([{ words: '0.2 % offset 58 304 N', x: 20, y: 30 }], FRAME, {
      paths: [CURVE],
    }).filter((shape) => shape.kind === 'text');
    if (text?.kind !== 'text') throw new Error('the words are there');
    const width = text.text.length * text.sizeMm * 0.5;
    const box = { x: text.x, y: text.y - text.sizeMm, width, height: text.sizeMm };
    expect(pathCrossesBox(CURVE, box)).toBe(false);
    expect(Math.hypot(text.x - 20, text.y - 30)).toBeLessThan(15);
  });

  it('never stand over the frame, wherever near its right edge the mark is', () => {
    for (let x = 110; x <= 130; x += 0.1) {
      const [text] = markShapes([{ words: 'HS-1', x, y: 30 }], FRAME).filter(
        (shape) => shape.kind === 'text',
      );
      if (text?.kind !== 'text') throw new Error('the words are there');
      const width = text.text.length * text.sizeMm * 0.52;
      expect(text.anchor === 'end' ? text.x : text.x + width).toBeLessThanOrEqual(FRAME.x + FRAME.width);
    }
  });

  it('keep off the curve that they are of where the others leave no room', () => {
    const boxOf = (paths: readonly Path[], ownPaths: readonly Path[]): Box => {
      const [text] = markShapes([{ words: 'Rm 88 ksi', x: 60, y: 40 }], FRAME, { paths, ownPaths }).filter(
        (shape) => shape.kind === 'text',
      );
      if (text?.kind !== 'text') throw new Error('the words are there');
      const width = text.text.length * text.sizeMm * 0.5;
      const x = text.anchor === 'start' ? text.x : text.x - width;
      return { x, y: text.y - text.sizeMm, width, height: text.sizeMm };
    };
    const own = { points: [10, 45, 60, 40, 130, 45], lifts: [0] };
    const beside = [-3, 4].map((off) => ({
      points: [10, 45 + off, 60, 40 + off, 130, 45 + off],
      lifts: [0],
    }));
    const withRoom = boxOf([own, ...beside], [own]);
    for (const path of [own, ...beside]) expect(pathCrossesBox(path, withRoom)).toBe(false);
    const everywhere = {
      points: Array.from({ length: 200 }, (_, i) => [i % 2 === 0 ? 10 : 130, 10 + i * 0.35]).flat(),
      lifts: [0],
    };
    expect(pathCrossesBox(own, boxOf([own, everywhere], [own]))).toBe(false);
  });

  it('stand somewhere in the frame where curves leave no room', () => {
    const everywhere = {
      points: Array.from({ length: 200 }, (_, i) => [i % 2 === 0 ? 10 : 130, 10 + i * 0.35]).flat(),
      lifts: [0],
    };
    const texts = markShapes([{ words: 'maximum', x: 60, y: 40 }], FRAME, { paths: [everywhere] }).filter(
      (shape) => shape.kind === 'text',
    );
    expect(texts).toHaveLength(1);
  });
});

describe('a path through a box', () => {
  const coordinate = fc.double({ min: -20, max: 20, noNaN: true });
  it('is found wherever a point of it lies inside', () => {
    fc.assert(
      fc.property(
        coordinate,
        coordinate,
        coordinate,
        coordinate,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (x1, y1, x2, y2, t) => {
          const [x, y] = [x1 + t * (x2 - x1), y1 + t * (y2 - y1)];
          const box = { x: x - 0.01, y: y - 0.01, width: 0.02, height: 0.02 };
          expect(pathCrossesBox({ points: [x1, y1, x2, y2], lifts: [0] }, box)).toBe(true);
        },
      ),
    );
  });

  it('is found in what of the path comes near, and only there', () => {
    const number = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(fc.array(number, { minLength: 4, maxLength: 40 }), number, number, (points, x, y) => {
        const path = { points, lifts: [0, 3] };
        const box = { x, y, width: 3, height: 2 };
        const around = { x: x - 5, y: y - 5, width: 13, height: 12 };
        expect(segmentsCrossBox(segmentsNear(path, around), box)).toBe(pathCrossesBox(path, box));
      }),
    );
  });

  it('is none where the pen is lifted over it', () => {
    const box = { x: 4, y: -1, width: 2, height: 2 };
    expect(pathCrossesBox({ points: [0, 0, 10, 0], lifts: [0] }, box)).toBe(true);
    expect(pathCrossesBox({ points: [0, 0, 10, 0], lifts: [0, 1] }, box)).toBe(false);
    expect(pathCrossesBox({ points: [0, 2, 10, 2], lifts: [0] }, box)).toBe(false);
  });
});
