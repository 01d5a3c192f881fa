import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../../core/curve/curve.ts';
import { thinCurve } from '../../../core/curve/thin-curve.ts';
import { THUMBNAIL_POINTS_MAX, thumbnailOf, thumbnailPath } from '../../../core/curve/thumbnail.ts';

const MAP = { xOffset: 0, xPerUnit: 1, yOffset: 0, yPerUnit: 1 };

/** Plus zero, so that minus zero becomes zero. */
const value = (min: number): fc.Arbitrary<number> =>
  fc.double({ min, max: 300, noNaN: true }).map((v) => v + 0);

/** A curve that runs to and fro, with values missing at times. */
const points = fc.array(
  fc.tuple(
    fc.oneof({ weight: 20, arbitrary: value(0) }, { weight: 1, arbitrary: fc.constant(Number.NaN) }),
    value(-50),
  ),
  { minLength: 1, maxLength: 400 },
);

const sourceOf = (list: readonly (readonly [number, number])[], lifts: readonly number[] = []) => ({
  length: list.length,
  x: Float64Array.from(list, ([x]) => x),
  y: Float64Array.from(list, ([, y]) => y),
  lifts,
});

describe('a thinned curve', () => {
  it('keeps readings at their true place, in the order of time, the first, the last and both extremes', () => {
    fc.assert(
      fc.property(points, (list) => {
        const source = sourceOf(list);
        const thinned = thinCurve(source, MAP);
        const kept = [...thinned.reading.slice(0, thinned.length)];
        const there = list.flatMap(([x], i) => (Number.isNaN(x) ? [] : [i]));
        expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
        kept.forEach((reading, i) => {
          expect(thinned.x[i]).toBe(source.x[reading]);
          expect(thinned.y[i]).toBe(source.y[reading]);
        });
        expect(kept[0]).toBe(there[0]);
        expect(kept.at(-1)).toBe(there.at(-1));
        const heights = there.map((i) => source.y[i] ?? 0);
        const drawn = kept.map((i) => source.y[i] ?? 0);
        if (there.length > 0) {
          expect(Math.max(...drawn)).toBe(Math.max(...heights));
          expect(Math.min(...drawn)).toBe(Math.min(...heights));
        }
      }),
      { numRuns: 200 },
    );
  });

  it('has no more corners than the picture can use, and keeps the extremes even then', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: 8, max: 40 }), (list, cornersMax) => {
        const whole = list.filter(([x]) => !Number.isNaN(x));
        fc.pre(whole.length > 0);
        const thinned = thinCurve(sourceOf(whole), MAP, { cornersMax });
        expect(thinned.length).toBeLessThanOrEqual(cornersMax);
        const drawn = [...thinned.y.slice(0, thinned.length)];
        expect(Math.max(...drawn)).toBe(Math.max(...whole.map(([, y]) => y)));
        expect(Math.min(...drawn)).toBe(Math.min(...whole.map(([, y]) => y)));
      }),
      { numRuns: 100 },
    );
  });

  it('lifts the pen at a gap', () => {
    const thinned = thinCurve(
      sourceOf(
        [
          [0, 0],
          [10, 10],
          [20, 20],
          [30, 30],
        ],
        [2],
      ),
      MAP,
    );
    expect([...thinned.lifts.slice(0, thinned.length)]).toEqual([1, 0, 1, 0]);
  });

  it('says so when the gaps alone need more points than there may be', () => {
    const list = Array.from({ length: 100 }, (_, i) => [i, i] as const);
    expect(() =>
      thinCurve(
        sourceOf(
          list,
          list.map((_, i) => i),
        ),
        MAP,
        { cornersMax: 50 },
      ),
    ).toThrow(/between gaps/);
  });
});

describe('the small picture of a curve', () => {
  const curve = (length: number, more: Partial<Curve> = {}): Curve => ({
    length,
    extensionMm: Float64Array.from({ length }, (_, i) => i / 100 + 0.02 * Math.sin(i * 7)),
    forceN: Float64Array.from(
      { length },
      (_, i) => 30_000 * Math.sin((2.6 * i) / length) + 100 * Math.sin(i * 13),
    ),
    ...more,
  });

  it('of any length is small, reaches all four sides and begins and ends where the curve does', () => {
    for (const length of [2, 10, 1_000, 100_000]) {
      const thumbnail = thumbnailOf(curve(length));
      const bytes = thumbnail?.bytes ?? new Uint8Array();
      expect(bytes.length).toBeLessThanOrEqual(THUMBNAIL_POINTS_MAX * 3);
      const heights = [...bytes].filter((_, i) => i % 3 === 1);
      expect(Math.min(...heights)).toBe(0);
      expect(Math.max(...heights)).toBe(255);
      expect(thumbnail).toMatchObject({ x: 'extension', y: 'force' });
    }
  });

  it('takes what there is: stress over strain, load over time, or over the number of the reading', () => {
    const stress = Float64Array.from([0, 1, 2]);
    expect(thumbnailOf({ length: 3, stressMpa: stress, strainRatio: stress })).toMatchObject({
      x: 'strain',
      y: 'stress',
    });
    expect(thumbnailOf({ length: 3, forceN: stress, timeS: stress })).toMatchObject({
      x: 'time',
      y: 'force',
    });
    expect(thumbnailOf({ length: 3, forceN: stress })).toMatchObject({ x: 'reading' });
    expect(thumbnailOf({ length: 3, timeS: stress })).toBeNull();
    expect(thumbnailOf({ length: 2, forceN: Float64Array.from([Number.NaN, Number.NaN]) })).toBeNull();
  });

  it('draws gaps where there are few, and stays small where there are many', () => {
    const gap = (beforeIndex: number) => ({ beforeIndex, durationS: 1, cause: 'silence' });
    const few = thumbnailOf(curve(1_000, { gaps: [gap(500)] }));
    expect([...(few?.bytes ?? [])].filter((byte, i) => i % 3 === 2 && byte === 1)).toHaveLength(2);
    const many = thumbnailOf(curve(1_000, { gaps: Array.from({ length: 300 }, (_, i) => gap(i * 3 + 1)) }));
    expect(many?.bytes.length).toBeLessThanOrEqual(THUMBNAIL_POINTS_MAX * 3);
    const holes = curve(1_000);
    holes.forceN?.forEach((_, i, column) => (i % 3 === 0 ? (column[i] = Number.NaN) : undefined));
    expect(thumbnailOf(holes)?.bytes.length).toBeLessThanOrEqual(THUMBNAIL_POINTS_MAX * 3);
  });

  it('becomes a path in a box of any size', () => {
    expect(thumbnailPath(Uint8Array.from([0, 0, 1, 255, 255, 0]), 96, 32)).toBe('M0.0 32.0L96.0 0.0');
    expect(thumbnailPath(Uint8Array.from([1, 2]), 96, 32)).toBe('');
  });
});
