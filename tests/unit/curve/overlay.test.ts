import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alignmentShift } from '../../../core/curve/align.ts';
import { differenceOf } from '../../../core/curve/difference.ts';

const source = (list: readonly (readonly [number, number])[]) => ({
  length: list.length,
  x: list.map(([x]) => x),
  y: list.map(([, y]) => y),
});

describe('aligning curves', () => {
  const curve = {
    ...source([
      [Number.NaN, 5],
      [0.5, 10],
      [0.7, 30],
      [0.9, 50],
      [1.2, 20],
    ]),
    elasticZeroX: 0.4,
  };

  it('at the start moves the first reading with both values to zero', () => {
    expect(alignmentShift(curve, { kind: 'start' })).toEqual({ ok: true, shift: -0.5 });
  });

  it('at a load moves the place where it was reached first to zero, between readings too', () => {
    const outcome = alignmentShift(curve, { kind: 'load', load: 20 });
    expect(outcome.ok && outcome.shift).toBeCloseTo(-0.6, 12);
    expect(alignmentShift(curve, { kind: 'load', load: 5 })).toEqual({ ok: true, shift: -0.5 });
  });

  it('at the elastic line moves its zero to zero', () => {
    expect(alignmentShift(curve, { kind: 'elastic-zero' })).toEqual({ ok: true, shift: -0.4 });
  });

  it('that can’t be done says why, rather than leaving the curve where it is', () => {
    expect(alignmentShift(curve, { kind: 'load', load: 60 })).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/never reaches/) as unknown,
    });
    expect(alignmentShift(source([[0, 1]]), { kind: 'elastic-zero' })).toMatchObject({ ok: false });
    expect(alignmentShift(source([[Number.NaN, 1]]), { kind: 'start' })).toMatchObject({ ok: false });
    expect(alignmentShift(curve, { kind: 'as-recorded' })).toEqual({ ok: true, shift: 0 });
  });
});

describe('the difference of two curves', () => {
  const line = (slope: number, count = 50, step = 0.1) =>
    source(Array.from({ length: count }, (_, i) => [i * step, slope * i * step] as const));

  it('of two straight lines is the difference of their slopes', () => {
    const outcome = differenceOf(line(3), line(2, 70, 0.05));
    if (!outcome.ok) throw new Error(outcome.reason);
    const { x, y, remark } = outcome.difference;
    expect(remark).toBeNull();
    expect(x.at(-1)).toBeCloseTo(3.45, 10);
    y.forEach((value, i) => expect(value).toBeCloseTo(x[i] ?? 0, 9));
  });

  it('of a curve and itself is zero, however it runs to and fro', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(fc.double({ min: 0, max: 9, noNaN: true }), fc.double({ min: 0, max: 99, noNaN: true })),
          { minLength: 2, maxLength: 80 },
        ),
        (list) => {
          const outcome = differenceOf(source(list), source(list));
          if (outcome.ok) expect(outcome.difference.y.every((value) => value === 0)).toBe(true);
        },
      ),
    );
  });

  it('goes up to the smaller maximum in x, and not along the falling branch', () => {
    const withFall = source([
      [0, 0],
      [1, 10],
      [2, 20],
      [3, 5],
      [4, 1],
    ]);
    const outcome = differenceOf(withFall, line(10));
    expect(outcome.ok && outcome.difference.x.at(-1)).toBe(2);
  });

  it('takes a curve that runs backwards where it passed first, and says so', () => {
    const back = source([
      [0, 0],
      [1, 10],
      [0.5, 12],
      [1.5, 15],
      [2, 20],
    ]);
    const outcome = differenceOf(back, line(10));
    if (!outcome.ok) throw new Error(outcome.reason);
    expect(outcome.difference.passedOver).toEqual([1, 0]);
    expect(outcome.difference.remark).toMatch(/backwards \(1 readings\)/);
    outcome.difference.y.forEach((value, i) => {
      if ((outcome.difference.x[i] ?? 0) <= 1) expect(value).toBeCloseTo(0, 9);
    });
  });

  it('has no value across a gap', () => {
    const gapped = { ...line(10), lifts: [20] };
    const outcome = differenceOf(gapped, line(10));
    if (!outcome.ok) throw new Error(outcome.reason);
    const missing = [...outcome.difference.x].filter((_, i) => Number.isNaN(outcome.difference.y[i]));
    expect(missing.every((x) => x > 1.9 && x < 2)).toBe(true);
  });

  it('shifts each curve as it was aligned', () => {
    const outcome = differenceOf({ ...line(10), shift: -1 }, line(10));
    if (!outcome.ok) throw new Error(outcome.reason);
    outcome.difference.y.forEach((value) => expect(value).toBeCloseTo(10, 9));
  });

  it('is refused where there is nothing in common', () => {
    expect(differenceOf(line(1), { ...line(1), shift: 100 })).toMatchObject({ ok: false });
    expect(differenceOf(line(1), source([[0, 1]]))).toMatchObject({ ok: false });
  });
});
