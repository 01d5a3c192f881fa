/** What a picture of a broken pull shows of a record that was held open for minutes. */
import { expect, it } from 'vitest';
import { drawnLength } from '../../../core/curve/drawn-length.ts';

const curve = (forceN: readonly number[], stepS = 1) => ({
  length: forceN.length,
  timeS: Float64Array.from(forceN, (_, i) => i * stepS),
  forceN: Float64Array.from(forceN),
});
const after = (count: number): number[] => Array.from({ length: count }, () => 12);

it('ends five seconds after the last reading that bears a tenth of the peak', () => {
  expect(drawnLength(curve([3, 400, 1000, 900, ...after(600)]))).toBe(9);
  expect(drawnLength(curve([3, 400, 1000, 900, 0, 0, 200, ...after(600)]))).toBe(12);
});

it('shows all of a record that ends before, bears its load to the end, or tells no load', () => {
  expect(drawnLength(curve([3, 400, 1000, 900, 12, 12]))).toBe(6);
  expect(drawnLength(curve([3, 400, 1000, ...Array.from({ length: 60 }, () => 300)]))).toBe(63);
  expect(drawnLength({ length: 7, timeS: new Float64Array(7) })).toBe(7);
  expect(drawnLength(curve([-1, -2, Number.NaN, ...after(0)]))).toBe(3);
});
