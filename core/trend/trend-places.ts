/** Where each pull stands in the picture of a trend, so that a cursor can go from one to the next. */
import type { CurvePlotInput } from '../drawing/plot-input.ts';
import { type TrendPoint, trendGroups } from './trend-plot.ts';
import type { TrendGrouping } from './trend-pull.ts';

export interface TrendPlaceOf {
  readonly point: TrendPoint;
  /** In the units of the picture's axes. */
  readonly x: number;
  readonly y: number;
}

/** From left to right; pulls that the picture leaves out have no place. */
export function trendPlaces(
  points: readonly TrendPoint[],
  by: TrendGrouping | 'individuals',
  picture: Pick<CurvePlotInput, 'traces'>,
): TrendPlaceOf[] {
  const drawn = picture.traces.flatMap(({ x, y, length }) =>
    Array.from({ length }, (_, i) => ({ x: x[i] ?? Number.NaN, y: y[i] ?? Number.NaN })),
  );
  const inOrder =
    by === 'date' || by === 'individuals'
      ? points
      : trendGroups(points, by).groups.flatMap((group) => group.points);
  // Where a picture has too many it keeps the newest.
  const first = inOrder.length - drawn.length;
  return drawn.flatMap((at, i) => {
    const point = inOrder[first + i];
    return point === undefined ? [] : [{ point, ...at }];
  });
}
