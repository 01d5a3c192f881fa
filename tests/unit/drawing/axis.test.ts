/** Scale lines of a picture: how far apart they stand, on the page as on paper. */
import { expect, it } from 'vitest';
import { axisOf } from '../../../core/drawing/axis.ts';
import { MAIN_LINES_MM, tickStep } from '../../../core/drawing/axis-ticks.ts';

const AXIS = { title: 'load', unit: 'kN' };
const lines = (runs: 'along' | 'up', lengthMm: number, most: number): number[] =>
  axisOf({ ...AXIS, range: { min: 0, max: most } }, { least: 0, most }, { lengthMm, runs }, '.').ticks.map(
    ({ value }) => value,
  );

it('leaves as much room between lines as their words need: more along than upward', () => {
  expect(lines('along', 110, 100)).toEqual([0, 20, 40, 60, 80, 100]);
  expect(lines('up', 110, 100)).toEqual([0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100]);
});

it('stands on round numbers, never closer than a third below that room', () => {
  for (const runs of ['along', 'up'] as const)
    for (let most = 3; most < 90_000; most *= 1.7)
      for (const lengthMm of [60, 90, 140, 180]) {
        const its = lines(runs, lengthMm, most);
        const apart = (((its[1] ?? 0) - (its[0] ?? 0)) / most) * lengthMm;
        expect(apart).toBeGreaterThan(MAIN_LINES_MM[runs] * 0.6);
        // The plot of a pull asks for the same.
        expect((its[1] ?? 0) - (its[0] ?? 0)).toBeCloseTo(
          tickStep(0, most, Math.max(2, Math.round(lengthMm / MAIN_LINES_MM[runs]))),
          9,
        );
      }
});
