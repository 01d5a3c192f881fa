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

/** Values in the order of pulling with the lines of the chart; values outside are named by their number. */
export function individualsPlot(
  base: Omit<CurvePlotInput, 'traces' | 'lines' | 'marks' | 'x'>,
  {
    name,
    values,
    chart,
    minimum,
  }: {
    readonly name: string;
    readonly values: readonly number[];
    readonly chart: IndividualsChart;
    readonly minimum?: number;
  },
): CurvePlotInput {
  const across = (y: number, words: string): PlotLine => ({
    x1: 0,
    y1: y,
    x2: values.length + 1,
    y2: y,
    words,
  });
  return {
    ...base,
    y: { fromZero: false, ...base.y },
    x: { title: 'specimen in the order of pulling', unit: '', range: { min: 0, max: values.length + 1 } },
    traces: [
      { name, x: values.map((_, i) => i + 1), y: values, length: values.length, drawn: 'line-and-points' },
    ],
    lines: [
      across(chart.mean, 'mean'),
      across(chart.upperLine, 'mean + 3 sigma'),
      across(chart.lowerLine, 'mean − 3 sigma'),
      ...(minimum === undefined ? [] : [across(minimum, 'minimum')]),
    ],
    marks: chart.outside.map((place) => ({
      x: place + 1,
      y: values[place] ?? Number.NaN,
      words: `no. ${String(place + 1)}`,
    })),
  };
}
