import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CurveIndex, STRETCH_READINGS } from '../../../core/curve/curve-index.ts';
import { thinCurve } from '../../../core/curve/thin-curve.ts';
import type { ThinnedTrace } from '../../../core/curve/thinning.ts';

const MAP = { xOffset: 0, xPerUnit: 100, yOffset: 400, yPerUnit: -4 };
const WHOLE = { left: 0, right: 1000, top: 0, bottom: 400 };

const curve = (length: number, at: (i: number) => readonly [number, number]) => {
  const x = new Float64Array(length);
  const y = new Float64Array(length);
  for (let i = 0; i < length; i++) [x[i], y[i]] = at(i) as [number, number];
  return { length, x, y };
};

const cornersOf = (trace: ThinnedTrace): [number, number, number][] =>
  Array.from({ length: trace.length }, (_, i) => [trace.x[i] ?? 0, trace.y[i] ?? 0, trace.lifts[i] ?? 0]);

describe('a curve with the boxes of its stretches', () => {
  it('knows the extent of what has both values', () => {
    const index = new CurveIndex(curve(700, (i) => [i === 300 ? Number.NaN : i / 100, i === 300 ? 999 : i]));
    expect(index.extent).toEqual({ x: { least: 0, most: 6.99 }, y: { least: 0, most: 699 } });
    expect(new CurveIndex({ length: 0, x: [], y: [] }).extent).toBeNull();
  });

  it('gives the corner points of thinning where everything is in the picture', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 990 }), fc.integer({ min: 0, max: 99 })), {
          minLength: 1,
          maxLength: 600,
        }),
        fc.array(fc.nat(600), { maxLength: 4 }),
        (points, at) => {
          const lifts = [...new Set(at)].filter((i) => i > 0 && i < points.length).sort((a, b) => a - b);
          const source = {
            ...curve(points.length, (i) => [(points[i]?.[0] ?? 0) / 100, points[i]?.[1] ?? 0]),
            lifts,
          };
          expect(cornersOf(new CurveIndex(source).thin(MAP, WHOLE))).toEqual(
            cornersOf(thinCurve(source, MAP)),
          );
        },
      ),
    );
  });

  it('keeps the highest reading of a million, and looks at few of them in a part of the picture', () => {
    const million = curve(1_000_000, (i) => [i / 100_000, i === 612_345 ? 99 : (i % 7) + i / 20_000]);
    const index = new CurveIndex(million);
    const all = index.thin(MAP, WHOLE, 4_000);
    expect([...all.reading.subarray(0, all.length)]).toContain(612_345);
    expect(all.length).toBeLessThanOrEqual(4_000);
    const part = index.thin(
      { ...MAP, xOffset: -600_000, xPerUnit: 100_000 },
      { left: 0, right: 1000, top: 0, bottom: 400 },
    );
    // 10 000 readings of the million lie in the frame, and besides only ends of a few stretches are drawn.
    expect(part.length).toBeLessThan(10_000 + 4 * STRETCH_READINGS);
    expect([...part.reading.subarray(0, part.length)]).toContain(600_500);
  });

  it('draws every line that may touch the picture, whatever it leaves out beside it', () => {
    const side = fc.integer({ min: 0, max: 60 });
    fc.assert(
      fc.property(fc.integer(), side, side, fc.array(fc.nat(4_999), { maxLength: 3 }), (seed, a, b, at) => {
        let state = seed | 0;
        const step = (): number => {
          state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0;
          return (state / 2_147_483_648) * 3;
        };
        // A wandering curve; a step along x is far more than the hysteresis.
        let [x, y] = [0, 0];
        const lifts = [...new Set(at)].filter((i) => i > 0).sort((p, q) => p - q);
        const source = {
          ...curve(5_000, () => [(x += step() + Math.sign(x) * -0.01), (y += step())]),
          lifts,
        };
        const map = { xOffset: 500, xPerUnit: 10, yOffset: 500, yPerUnit: -10 };
        const frame = { left: 10 * a, right: 10 * a + 200, top: 10 * b, bottom: 10 * b + 200 };
        const thinned = new CurveIndex(source).thin(map, frame, 100_000);
        const place = new Map(Array.from(thinned.reading.subarray(0, thinned.length), (r, k) => [r, k]));
        const px = (i: number): number => 500 + 10 * (source.x[i] ?? 0);
        const py = (i: number): number => 500 - 10 * (source.y[i] ?? 0);
        for (let i = 0; i + 1 < source.length; i++) {
          if (lifts.includes(i + 1) || Math.abs(px(i + 1) - px(i)) < 1) continue;
          const [xs, ys] = [
            [px(i), px(i + 1)],
            [py(i), py(i + 1)],
          ];
          const isAside =
            Math.max(...xs) < frame.left ||
            Math.min(...xs) > frame.right ||
            Math.max(...ys) < frame.top ||
            Math.min(...ys) > frame.bottom;
          if (isAside) continue;
          expect(place.get(i + 1)).toBe((place.get(i) ?? NaN) + 1);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('begins where the pull began', () => {
    const index = new CurveIndex({ ...curve(500, (i) => [i / 50, i / 5]), from: 200 });
    const thinned = index.thin(MAP, WHOLE);
    expect(thinned.reading[0]).toBe(200);
    expect(index.extent?.x.least).toBe(4);
  });
});
