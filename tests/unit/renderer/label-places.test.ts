import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Box, LabelPlaces } from '../../../renderer/plot/label-places.ts';

const PLOT: Box = { left: 0, top: 0, width: 400, height: 300 };

describe('words beside marks', () => {
  it('stand above their mark where there is room', () => {
    expect(new LabelPlaces(PLOT).place(200, 150, 40, 16, 20)).toEqual({ x: 200, y: 130 });
  });

  it('never overlap and never leave the plot', () => {
    const mark = fc.tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 300 }));
    fc.assert(
      fc.property(fc.array(mark, { maxLength: 12 }), (marks) => {
        const labels = new LabelPlaces(PLOT);
        const boxes = marks.flatMap(([x, y]) => {
          const at = labels.place(x, y, 60, 16, 18);
          return at === null ? [] : [{ left: at.x - 30, top: at.y - 8, width: 60, height: 16 }];
        });
        boxes.forEach((a, i) => {
          expect(a.left).toBeGreaterThanOrEqual(0);
          expect(a.top).toBeGreaterThanOrEqual(0);
          expect(a.left + a.width).toBeLessThanOrEqual(PLOT.width);
          expect(a.top + a.height).toBeLessThanOrEqual(PLOT.height);
          for (const b of boxes.slice(i + 1)) {
            const apart =
              a.left + a.width <= b.left ||
              b.left + b.width <= a.left ||
              a.top + a.height <= b.top ||
              b.top + b.height <= a.top;
            expect(apart).toBe(true);
          }
        });
      }),
      { numRuns: 80 },
    );
  });

  it('are left out where every place is taken', () => {
    const labels = new LabelPlaces({ left: 0, top: 0, width: 50, height: 20 });
    expect(labels.place(25, 30, 50, 20, 20)).not.toBeNull();
    expect(labels.place(25, 30, 50, 20, 20)).toBeNull();
  });
});
