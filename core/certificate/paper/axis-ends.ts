/** Where the axes of a printed curve end: a little beyond the data, at numbers that are round. */
import { tickStep } from '../../drawing/axis-ticks.ts';

/** Scale lines that such an axis has about. */
const STEPS = 8;
/** Parts of a step at which an axis may begin: a whole step below a dust of negative readings is empty paper. */
const BEGIN_PARTS = 10;
const END_PARTS = 2;

/** Undefined where there is nothing to draw. Zero is always on it; `room` leaves that much beyond the largest for words. */
export function axisEnds(
  values: readonly number[],
  further: readonly number[] = [],
  room = 1,
): { readonly min: number; readonly max: number } | undefined {
  let least = 0;
  let most = 0;
  for (const list of [values, further])
    for (const value of list) {
      if (value < least) least = value;
      if (value > most) most = value;
    }
  if (!(most > least) || !Number.isFinite(most - least)) return undefined;
  const step = tickStep(least, most, STEPS);
  const [below, above] = [step / BEGIN_PARTS, step / END_PARTS];
  // Multiples are written with few digits again: 3 × 0.1 is no end of an axis.
  const round = (value: number): number => Number(value.toPrecision(12));
  return {
    min: round(Math.floor(least / below + 1e-9) * below),
    max: round(Math.ceil((most * room) / above - 1e-9) * above),
  };
}
