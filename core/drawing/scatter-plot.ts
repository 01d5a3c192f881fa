/** Results as points: by date, heat, filler lot, in the order of pulling; with mean, three-sigma lines and a minimum. */
import type { IndividualsChart } from '../statistics/individuals-chart.ts';
import type { CurvePlotInput, PlotLine } from './plot-input.ts';

export interface ScatterGroup {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** The input of a curve plot whose traces are points without lines between them. */
export function scatterPlot(
  base: Omit<CurvePlotInput, 'traces' | 'lines' | 'marks'>,
  groups: readonly ScatterGroup[],
  lines: readonly PlotLine[] = [],
): CurvePlotInput {
  return {
    ...base,
    x: { fromZero: false, ...base.x },
    y: { fromZero: false, ...base.y },
    traces: groups.map(({ name, x, y }) => ({
      name,
      x,
      y,
      length: Math.min(x.length, y.length),
      drawn: 'points',
    })),
    lines,
  };
}

/** What is written in a chart of individual values. */
export interface IndividualsWords {
  readonly order: string;
  readonly mean: string;
  readonly upper: string;
  readonly lower: string;
}

export const ENGLISH_INDIVIDUALS: IndividualsWords = {
  order: 'specimen in the order of pulling',
  mean: 'mean',
  upper: 'mean + 3 sigma from moving ranges',
  lower: 'mean − 3 sigma from moving ranges',
};

/** Values in the order of pulling with the lines of the chart; values outside are named by their number. */
export function individualsPlot(
  base: Omit<CurvePlotInput, 'traces' | 'lines' | 'marks' | 'x'>,
  {
    name,
    values,
    chart,
    minima = [],
    words = ENGLISH_INDIVIDUALS,
  }: {
    readonly name: string;
    readonly values: readonly number[];
    readonly chart: Pick<IndividualsChart, 'mean' | 'upperLine' | 'lowerLine' | 'outside'>;
    readonly minima?: readonly { readonly value: number; readonly words: string }[];
    readonly words?: IndividualsWords;
  },
): CurvePlotInput {
  const across = (y: number, said: string): PlotLine => ({
    x1: 0,
    y1: y,
    x2: values.length + 1,
    y2: y,
    words: said,
  });
  return {
    ...base,
    y: { fromZero: false, ...base.y },
    x: { title: words.order, unit: '', counts: true, range: { min: 0, max: values.length + 1 } },
    traces: [
      { name, x: values.map((_, i) => i + 1), y: values, length: values.length, drawn: 'line-and-points' },
    ],
    lines: [
      across(chart.mean, words.mean),
      across(chart.upperLine, words.upper),
      across(chart.lowerLine, words.lower),
      ...minima.map((minimum) => across(minimum.value, minimum.words)),
    ],
    marks: chart.outside.map((place) => ({
      x: place + 1,
      y: values[place] ?? Number.NaN,
      words: `no. ${String(place + 1)}`,
    })),
  };
}
