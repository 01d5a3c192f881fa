/** How each curve ink is told apart without colour: a dash of its own, in CSS pixels. */
import type { CurveInk } from '../design/palette.ts';

export const CURVE_DASH: Readonly<Record<CurveInk, readonly number[]>> = {
  blue: [],
  bronze: [10, 4],
  purple: [2, 4],
  straw: [14, 4, 2, 4],
  grey: [5, 10],
};
export const CURVE_WIDTH_PX = 2.5;
