import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CORNERS_MAX, HYSTERESIS_PX, type PixelMap, ThinnedTrace } from '../../../core/curve/thinning.ts';
import { PartOfTrace, Trace, type TraceSource, nearestCorner } from '../../../renderer/plot/trace.ts';

const ONE_TO_ONE: PixelMap = { xOffset: 0, xPerUnit: 1, yOffset: 0, yPerUnit: 1 };

const asShown = (raw: Float64Array) => ({ raw, factor: 1, shift: 0 });

function source(points: readonly (readonly [number, number])[], lifts: readonly number[] = []): TraceSource {
  return {
    length: points.length,
    from: 0,
    lifts,
    x: asShown(Float64Array.from(points, (p) => p[0])),
    y: asShown(Float64Array.from(points, (p) => p[1])),
  };
}

/** A made-up curve of many readings. */
function curve(count: number, at: (i: number) => readonly [number, number]): TraceSource {
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  for (let i = 0; i < count; i++) [x[i], y[i]] = at(i) as [number, number];
  return { length: count, from: 0, lifts: [], x: asShown(x), y: asShown(y) };
}

const corners = (t: ThinnedTrace) =>
  Array.from({ length: t.length }, (_, i) => [t.x[i] ?? NaN, t.y[i] ?? NaN] as const);

/** A loop in pixels: out to TURN_X, then back above itself to BACK_TO_X, with noise in x, so that it goes back at nearly every reading. */
const TURN_X = 300;
const BACK_TO_X = 60;
const TURN = 30_000;
const outAt = (x: number): number => (x / TURN_X) * 200;
const backAt = (x: number): number => 200 - ((TURN_X - x) / 240) * 80;
const LOOP = curve(2 * TURN, (i) => {
  const noise = ((Math.imul(i, 2_654_435_761) >>> 0) / 2 ** 32 - 0.5) * 0.8;
  const x = i <= TURN ? (i / TURN) * TURN_X : TURN_X - ((i - TURN) / TURN) * (TURN_X - BACK_TO_X);
  return [x + noise, i <= TURN ? outAt(x) : backAt(x)];
});

/** Corners up to the turn, and those behind it, in the order in which they are drawn. */
function branchesOf(drawn: ThinnedTrace) {
  const all = corners(drawn).map(([x, y], i) => ({ x, y, reading: drawn.reading[i] ?? NaN }));
  const turn = all.findIndex(({ reading }) => reading > TURN);
  return [all.slice(0, turn), all.slice(turn)] as const;
}

const point = fc.tuple(
  fc.double({ min: 0, max: 50, noNaN: true }),
  fc.double({ min: 0, max: 50, noNaN: true }),
);

describe('a part of a long curve', () => {
  /** A tooth at every reading, and one reading that stands out. */
  const READINGS = 100_000;
  const OUT = 60_123;
  const long = { ...curve(READINGS, (i) => [i, i === OUT ? 90 : 40 + (i % 2)]), of: {} };
  const frame = { left: 0, right: 1_000, top: 0, bottom: 100 };
  /** 200 readings over the whole frame. */
  const near = (from: number): PixelMap => ({ xOffset: -from * 5, xPerUnit: 5, yOffset: 0, yPerUnit: 1 });

  it('is drawn reading by reading, and what lies outside takes nothing from it', () => {
    const drawn = new PartOfTrace().thin(long, near(OUT - 100), frame);
    const inside = corners(drawn).filter(([x]) => x >= 0 && x <= 1_000);
    expect(inside).toHaveLength(201);
    expect(inside.find(([, y]) => y === 90)).toEqual([500, 90]);
    // All of it as closely would be a hundred thousand.
    expect(drawn.length).toBeLessThan(1_500);
  });

  it('keeps the extremes where many readings share a pixel', () => {
    const drawn = new PartOfTrace().thin(
      long,
      { xOffset: -50_000 / 20, xPerUnit: 1 / 20, yOffset: 0, yPerUnit: 1 },
      frame,
    );
    const ys = corners(drawn).map(([, y]) => y);
    expect(Math.max(...ys)).toBe(90);
    expect(drawn.length).toBeLessThan(12_000);
  });

  it('is of the readings that are there now, also in the columns of before', () => {
    const part = new PartOfTrace();
    expect(corners(part.thin({ ...long, length: OUT - 50 }, near(OUT - 100), frame)).at(-1)?.[0]).toBe(245);
    expect(corners(part.thin(long, near(OUT - 100), frame)).some(([, y]) => y === 90)).toBe(true);
    const other = { ...curve(READINGS, (i) => [i, 10]), of: {} };
    expect(corners(part.thin(other, near(OUT - 100), frame)).every(([, y]) => y === 10)).toBe(true);
  });
});

describe('thinning for the screen', () => {
  it('draws the columns of another record from their beginning: an outline, then all of its readings', () => {
    const trace = new Trace();
    const at = (i: number) => [i, i % 7] as const;
    trace.follow({ ...curve(40, at), of: {} }, ONE_TO_ONE);
    const whole = { ...curve(200, (i) => [i / 5, (i / 5) % 7]), of: {} };
    expect(corners(trace.follow(whole, ONE_TO_ONE))).toEqual(corners(new Trace().follow(whole, ONE_TO_ONE)));
  });

  it('moves to other units or a slightly longer axis with the corners that thinning anew would give', () => {
    // Of eighths, and with scales that are exact in binary, so that both ways compare the very same numbers.
    const eighths = fc.tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 400 }));
    const moved: PixelMap = { xOffset: 8, xPerUnit: 1.25, yOffset: -16, yPerUnit: 0.25 };
    fc.assert(
      fc.property(
        fc.array(eighths, { minLength: 1, maxLength: 300 }),
        fc.array(eighths, { maxLength: 60 }),
        (early, late) => {
          const all = [...early, ...late].map(([x, y]) => [x / 8, y / 8] as const);
          const trace = new Trace();
          const first = trace.follow(source(all.slice(0, early.length)), ONE_TO_ONE);
          const second = trace.follow(source(all), moved);
          expect(second).toBe(first);
          const anew = new ThinnedTrace(moved, HYSTERESIS_PX * 1.25);
          all.forEach(([x, y], i) => anew.add(x, y, i));
          anew.settle();
          expect(corners(second)).toEqual(corners(anew));
          expect(second.reading.subarray(0, second.length)).toEqual(anew.reading.subarray(0, anew.length));
        },
      ),
      { numRuns: 100 },
    );
  });

  it('is thinned anew where the scale changes by more, and where an axis is turned round', () => {
    const trace = new Trace();
    const points = curve(200, (i) => [i / 5, i % 7]);
    for (const change of [{ xPerUnit: 2 }, { xPerUnit: 0.5 }, { yPerUnit: -1 }]) {
      const before = trace.follow(points, ONE_TO_ONE);
      const after = trace.follow(points, { ...ONE_TO_ONE, ...change });
      expect(after).not.toBe(before);
      expect(after.hysteresisPx).toBe(HYSTERESIS_PX);
    }
  });

  it('ends at the last reading, whatever came before (C1)', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 400 }), (points) => {
        const thinned = new Trace().follow(source(points), ONE_TO_ONE);
        expect(corners(thinned).at(-1)).toEqual(points.at(-1));
      }),
      { numRuns: 60 },
    );
  });

  it('keeps the highest and the lowest reading', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 400 }), (points) => {
        const ys = corners(new Trace().follow(source(points), ONE_TO_ONE)).map((c) => c[1]);
        expect(Math.max(...ys)).toBe(Math.max(...points.map((p) => p[1])));
        expect(Math.min(...ys)).toBe(Math.min(...points.map((p) => p[1])));
      }),
      { numRuns: 60 },
    );
  });

  it('leaves the corners that are called settled where they are when more readings come', () => {
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 2, maxLength: 400 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (points, share) => {
          const all = source(points);
          const trace = new Trace();
          const first = trace.follow({ ...all, length: Math.ceil(points.length * share) }, ONE_TO_ONE);
          const settled = corners(first).slice(0, first.settledLength);
          expect(corners(trace.follow(all, ONE_TO_ONE)).slice(0, settled.length)).toEqual(settled);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('draws in the order of time and at true places: each corner is a reading, readings ascend', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 400 }), (points) => {
        const thinned = new Trace().follow(source(points), ONE_TO_ONE);
        for (let i = 0; i < thinned.length; i++) {
          const reading = thinned.reading[i] ?? -1;
          expect([thinned.x[i], thinned.y[i]]).toEqual(points[reading]);
          if (i > 0) expect(reading).toBeGreaterThan(thinned.reading[i - 1] ?? -1);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('draws the same picture whether readings come at once or in any portions', () => {
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 2, maxLength: 200 }),
        fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 10 }),
        (points, portions) => {
          const inPortions = new Trace();
          let length = 0;
          for (const portion of [...portions, points.length]) {
            length = Math.min(points.length, length + portion);
            inPortions.follow({ ...source(points), length }, ONE_TO_ONE);
          }
          const whole = new Trace().follow(source(points), ONE_TO_ONE);
          expect(corners(inPortions.follow(source(points), ONE_TO_ONE))).toEqual(corners(whole));
        },
      ),
      { numRuns: 40 },
    );
  });

  it('never sorts: of many readings to a pixel the branch that comes back is drawn where it is (C1)', () => {
    const drawn = new Trace().follow(LOOP, ONE_TO_ONE);
    const [out, back] = branchesOf(drawn);
    expect(back.every(({ reading }) => reading > TURN)).toBe(true);
    for (const { x, y } of out) expect(Math.abs(y - outAt(x))).toBeLessThan(2);
    for (const { x, y } of back) expect(Math.abs(y - backAt(x))).toBeLessThan(2);
    // All the way back, not only where it ends.
    expect(out.at(-1)?.x).toBeGreaterThan(TURN_X - 2);
    const steps = back.slice(1).map(({ x }, i) => (back[i]?.x ?? NaN) - x);
    expect(Math.max(...steps)).toBeLessThan(4);
    expect(back.at(-1)).toMatchObject({ reading: LOOP.length - 1, x: LOOP.x.raw.at(-1) });
  });

  it('makes of a million readings with noise in both directions a few thousand corners (C3)', () => {
    const count = 1_000_000;
    const noise = (i: number, salt: number) => (Math.imul(i + salt, 2_654_435_761) >>> 0) / 2 ** 32 - 0.5;
    const wide = curve(count, (i) => [
      (i / count) * 1_200 + noise(i, 1) * 0.4,
      300 + 200 * Math.sin(i / 90_000) + noise(i, 7) * 3,
    ]);
    const thinned = new Trace().follow(wide, ONE_TO_ONE);
    expect(thinned.length).toBeLessThan(12_000);
    expect(thinned.length).toBeGreaterThan(1_200);
  });

  it('stays within its bound where noise in x defeats the hysteresis, and still ends at the last reading', () => {
    const count = 200_000;
    const wild = curve(count, (i) => [(i % 2) * 4 + i / 10_000, i / 1_000]);
    const thinned = new Trace().follow(wild, ONE_TO_ONE);
    expect(thinned.length).toBeLessThanOrEqual(CORNERS_MAX + 4);
    expect(thinned.reading[thinned.length - 1]).toBe(count - 1);
  });
});

it('shows values by factor and shift, and draws anew when they change', () => {
  const trace = new Trace();
  const one = source([
    [0, 0],
    [2, 3],
  ]);
  trace.follow(one, ONE_TO_ONE);
  const shifted = { ...one, x: { ...one.x, factor: 10, shift: -5 } };
  expect(corners(trace.follow(shifted, ONE_TO_ONE))).toEqual([
    [-5, 0],
    [15, 3],
  ]);
});

describe('a gap', () => {
  const points: [number, number][] = [
    [0, 0],
    [10, 1],
    [20, 2],
    [30, 3],
  ];

  it('lifts the pen before the first reading after it (C4)', () => {
    const thinned = new Trace().follow(source(points, [2]), ONE_TO_ONE);
    expect([...thinned.lifts.slice(0, thinned.length)]).toEqual([1, 0, 1, 0]);
  });

  it('that is told only after the readings were drawn is drawn all the same', () => {
    const trace = new Trace();
    trace.follow(source(points), ONE_TO_ONE);
    const thinned = trace.follow(source(points, [2]), ONE_TO_ONE);
    expect([...thinned.lifts.slice(0, thinned.length)]).toEqual([1, 0, 1, 0]);
  });

  it('is left where a reading has no value, and never bridged (C4)', () => {
    const thinned = new Trace().follow(
      source([
        [0, 0],
        [10, Number.NaN],
        [20, 2],
      ]),
      ONE_TO_ONE,
    );
    expect(corners(thinned)).toEqual([
      [0, 0],
      [20, 2],
    ]);
    expect([...thinned.lifts.slice(0, 2)]).toEqual([1, 1]);
  });
});

it('finds the reading nearest to the pointer on either branch of a loop, wherever it is moved over them (C2)', () => {
  const drawn = new Trace().follow(LOOP, ONE_TO_ONE);
  for (let x = BACK_TO_X + 1; x < TURN_X - 60; x++)
    for (const [at, isBack] of [
      [outAt, false],
      [backAt, true],
    ] as const) {
      const found = nearestCorner(drawn, x + 0.5, at(x) - 1.5);
      const reading = drawn.reading[found] ?? NaN;
      expect(reading > TURN, `at ${String(x)}, found reading ${String(reading)}`).toBe(isBack);
      expect(Math.abs((drawn.x[found] ?? NaN) - x)).toBeLessThan(4);
    }
  expect(nearestCorner(new ThinnedTrace(ONE_TO_ONE), 0, 0)).toBe(-1);
});
