/** A blank run becomes a few points of compliance; a calibration table is read as people write it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { interpolator } from '../../../core/curve/correction-table.ts';
import { BLANK_RUN_BANDS, compliancePoints } from '../../../core/evaluation/blank-run.ts';
import { readCalibration } from '../../../core/evaluation/calibration-file.ts';

const run = (rows: readonly (readonly [force: number, travel: number])[]) =>
  compliancePoints({
    length: rows.length,
    forceN: Float64Array.from(rows, ([force]) => force),
    travelMm: Float64Array.from(rows, ([, travel]) => travel),
  });

describe('a blank run', () => {
  /** 2 mm of slack at no force, then a frame of 50 kN/mm, then the unloading with its hysteresis. */
  const rows: [number, number][] = [
    ...Array.from({ length: 200 }, (_, i): [number, number] => [0, i / 100]),
    ...Array.from({ length: 4_001 }, (_, i): [number, number] => [i * 10, 2 + (i * 10) / 50_000]),
    ...Array.from({ length: 400 }, (_, i): [number, number] => [40_000 - i * 100, 2.9 - (i * 100) / 50_000]),
  ];

  it('gives back the stiffness of the frame, without the slack and without the unloading', () => {
    const outcome = run(rows);
    if (!outcome.ok) throw new Error(outcome.sentence);
    expect(outcome.points.length).toBeLessThanOrEqual(BLANK_RUN_BANDS + 1);
    expect(outcome.points[0]).toEqual({ forceN: 0, travelMm: 0 });
    const at = interpolator(outcome.points.map((p) => ({ x: p.forceN, y: p.travelMm })));
    // F = k·x (linear spring): 0.2 mm at 10 kN, 0.8 mm at 40 kN.
    for (const force of [500, 10_000, 25_000, 40_000, 60_000])
      expect(at(force)).toBeCloseTo(force / 50_000, 9);
  });

  it('ascends in force whatever the readings are, or says why it is none', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: -1e5, max: 1e5 }), fc.double({ min: -10, max: 10 })), {
          maxLength: 60,
        }),
        (made) => {
          const outcome = run(made);
          if (!outcome.ok) {
            expect(outcome.sentence.length).toBeGreaterThan(20);
            return;
          }
          for (const [i, point] of outcome.points.entries()) {
            expect(Number.isFinite(point.travelMm)).toBe(true);
            if (i > 0) expect(point.forceN).toBeGreaterThan(outcome.points[i - 1]?.forceN ?? Infinity);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it.each<readonly [string, [number, number][], RegExp]>([
    ['that is compression', rows.map(([f, t]) => [-f, t]), /does not rise/],
    ['whose travel runs backwards', rows.map(([f, t]) => [f, -t]), /does not grow/],
    [
      'whose force is no more than the least of all numbers',
      [
        [0, 0],
        [5e-324, 0],
        [1e-323, 1e-15],
        [0, 0],
        [0, 0],
      ],
      /does not rise/,
    ],
    ['at one level of force', Array.from({ length: 20 }, (_, i) => [1000, i]), /fewer than two levels/],
  ])('%s is refused with what to do', (_name, made, sentence) => {
    const outcome = run(made);
    expect(outcome.ok ? '' : outcome.sentence).toMatch(sentence);
  });
});

describe('a calibration table', () => {
  it('is read in the unit of its columns, in either order, with decimal commas behind semicolons', () => {
    expect(readCalibration('# certificate 12\nactual (kN);shown (kN)\n0;0\n10,2;10\n')).toEqual({
      ok: true,
      quantity: 'force',
      points: [
        { shown: 0, actual: 0 },
        { shown: 10_000, actual: 10_200 },
      ],
    });
    // 1 in = 25.4 mm (NIST SP 811, Appendix B).
    expect(readCalibration('indicated_in,applied_in\n0.1,0.11\n')).toMatchObject({
      quantity: 'length',
      points: [{ shown: 2.54, actual: 2.794 }],
    });
  });

  it.each([
    ['', /begin it with a header/],
    ['kN,kN\n1,2\n', /must name two columns/],
    ['shown_kN,actual_mm\n1,2\n', /one column is a force and the other a length/],
    ['shown_kN,actual_kN\n1,2\n2,x\n', /Line 3.*two numbers/],
  ])('%j is refused with the line and what to do', (text, sentence) => {
    const outcome = readCalibration(text);
    expect(outcome.ok ? '' : outcome.sentence).toMatch(sentence);
  });
});
