/** The difference of two curves as a picture: what the first has more than the second, with the place where that is most. */
import type { Difference } from '../curve/difference.ts';
import type { ReadingsOrigin } from '../pull/readings-origin.ts';
import type { AlignedCurve } from './overlay-plot.ts';
import type { CurvePlotInput, PlotRange } from './plot-input.ts';

export interface DifferencePictureInput {
  readonly widthMm: number;
  readonly heightMm: number;
  /** "V-1 less V-2" */
  readonly title: string;
  readonly first: AlignedCurve;
  readonly second: AlignedCurve;
  readonly difference: Pick<Difference, 'x' | 'y'>;
  /** Of the picture of both, so that the one can be held against the other. */
  readonly range: PlotRange['x'];
  readonly decimalSign: '.' | ',';
  /** A difference as it is written beside its place. */
  readonly figure: (value: number) => string;
  /** Beside the name of a difference of which no specimen gave one curve. */
  readonly originMarks: Readonly<Record<ReadingsOrigin, string>>;
  /** What it is stands above the picture rather than in it. */
  readonly onScreen: boolean;
}

/** Where the curves differ most, to either side; -1 where they share no value. */
export function mostDifferent(y: ArrayLike<number>): number {
  let best = -1;
  let most = -1;
  for (let i = 0; i < y.length; i++) {
    const size = Math.abs(y[i] ?? Number.NaN);
    if (size > most) [best, most] = [i, size];
  }
  return best;
}

/** Names of both; where one specimen was pulled twice they are told apart by what is said of each pull, its number for example. */
export function namesApart(
  first: AlignedCurve,
  second: AlignedCurve,
  pullNamed: (curve: AlignedCurve) => string,
): readonly [string, string] {
  if (first.name !== second.name) return [first.name, second.name];
  const apart = (curve: AlignedCurve): string => `${curve.name}, ${pullNamed(curve)}`;
  return [apart(first), apart(second)];
}

export function differencePlot({
  title,
  first,
  second,
  difference: { x, y },
  range,
  figure,
  originMarks,
  onScreen,
  ...paper
}: DifferencePictureInput): CurvePlotInput {
  const most = mostDifferent(y);
  const origins = new Set([first, second].flatMap(({ origin }) => origin ?? []));
  const mark = [...origins].map((origin) => originMarks[origin]).join(', ');
  return {
    ...paper,
    title,
    legend: !onScreen,
    x: { ...first.plot.x, range },
    y: { title: `Δ ${first.plot.y.title}`, unit: first.plot.y.unit },
    traces: [{ name: title, ...(mark === '' ? {} : { mark }), x, y, length: x.length }],
    ...(most < 0
      ? {}
      : { marks: [{ x: x[most] ?? 0, y: y[most] ?? 0, words: figure(y[most] ?? Number.NaN) }] }),
  };
}
