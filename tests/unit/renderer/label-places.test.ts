import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Box, LabelPlaces, type Word, placeWords } from '../../../core/drawing/label-places.ts';

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

const box = (at: { x: number; y: number }, { width, height }: Pick<Word, 'width' | 'height'>): Box => ({
  left: at.x - width / 2,
  top: at.y - height / 2,
  width,
  height,
});
const apart = (a: Box, b: Box): boolean =>
  a.left + a.width <= b.left ||
  b.left + b.width <= a.left ||
  a.top + a.height <= b.top ||
  b.top + b.height <= a.top;

describe('start, peak, break and end of a very short pull, within 1 % of the time axis', () => {
  const WIDTHS = { start: 36, peak: 34, break: 40, end: 26 };
  const COUNT_WIDTH = 20;

  /** On an axis of `plot.width` they stand side by side at `at`, each with its sign. */
  const crowd = (plot: Box, at: number, loads: readonly number[]) => {
    const words: Word[] = Object.values(WIDTHS).map((width, i) => ({
      x: plot.left + plot.width * (at + (0.01 * i) / 3),
      y: plot.top + plot.height * (1 - (loads[i] ?? 0)),
      width,
      height: 16,
      distance: 18,
    }));
    const signs = words.map(({ x, y }) => ({ left: x - 7, top: y - 7, width: 14, height: 14 }));
    const labels = new LabelPlaces(plot);
    for (const sign of signs) labels.reserve(sign);
    return { words, signs, placed: placeWords(labels, words, COUNT_WIDTH) };
  };

  it.each([
    ['at the left edge', 0.02, [0.05, 0.9, 0.85, 0]],
    ['in the middle, at one load', 0.5, [0.5, 0.5, 0.5, 0.5]],
    ['at the right edge', 0.98, [0.05, 0.9, 0.1, 0]],
  ] as const)('%s: all four words stand, none over another and none over a sign', (_, at, loads) => {
    const { words, signs, placed } = crowd(PLOT, at, loads);
    const boxes = words.map((word, i) => {
      const place = placed.words[i] ?? null;
      expect(place).not.toBeNull();
      return box(place ?? { x: 0, y: 0 }, word);
    });
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) expect(apart(a, b)).toBe(true);
      for (const sign of signs) expect(apart(a, sign)).toBe(true);
    });
    expect(placed.counts).toEqual([]);
  });

  it('on a plot too small for all: what has no room is told by a number, and nothing is written over anything', () => {
    const small: Box = { left: 0, top: 0, width: 90, height: 62 };
    const { words, placed } = crowd(small, 0.5, [0.5, 0.5, 0.5, 0.5]);
    const standing = placed.words.flatMap((at, i) => {
      const word = words[i];
      return at === null || word === undefined ? [] : [box(at, word)];
    });
    const missing = words.length - standing.length;
    expect(missing).toBeGreaterThan(0);
    expect(placed.counts.reduce((sum, { count }) => sum + count, 0)).toBe(missing);
    const all = [...standing, ...placed.counts.map(({ at }) => box(at, { width: COUNT_WIDTH, height: 16 }))];
    all.forEach((a, i) => {
      for (const b of all.slice(i + 1)) expect(apart(a, b)).toBe(true);
    });
  });
});
