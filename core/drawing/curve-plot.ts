/** Curves in one picture: axes, traces with dash and marker, elastic and offset lines, marks, gaps, a legend. */
import { type Axis, axisOf } from './axis.ts';
import type { Box, Drawing, Shape } from './drawing.ts';
import { type LegendEntry, legendHeightMm, legendShapes } from './legend.ts';
import type { Path } from './path-crosses-box.ts';
import { penOf } from './pens.ts';
import { PlotArea } from './plot-area.ts';
import type { CurvePlotInput } from './plot-input.ts';
import { sceneShapes } from './scene-shapes.ts';

/** Words keep off this many curves; where there are more, off the one that they are of. */
const AVOIDED_CURVES_MAX = 8;

/** Curves in one picture; more can't be told apart however they are dashed. */
export const PLOT_TRACES_MAX = 200;
const TEXT_MM = 2.8;
const TITLE_MM = 3.2;
/** Width of a digit by its height, for the place that the scale needs. */
const DIGIT_WIDTH = 0.6;
/** Paper kept free at the sides. */
const SIDE_MM = 4;

/** Where everything of a picture stands, before anything is drawn. */
export interface PlotLayout {
  readonly frame: Box;
  readonly x: Axis;
  readonly y: Axis;
  readonly area: PlotArea;
  readonly legend: readonly LegendEntry[];
  readonly legendMm: number;
}

/** Throws a RangeError where there are more traces than can be told apart, or the picture is too small for its axes. */
export function plotLayout(input: CurvePlotInput): PlotLayout {
  if (input.traces.length > PLOT_TRACES_MAX)
    throw new RangeError(
      `${String(input.traces.length)} curves, at most ${String(PLOT_TRACES_MAX)} go into one picture`,
    );
  const decimalSign = input.decimalSign ?? '.';
  const data = extentOf(input);
  const hasLegend = input.legend ?? input.traces.length > 1;
  const legend = hasLegend
    ? input.traces.map((t, i) => ({
        name: t.name,
        pen: t.pen ?? penOf(i),
        ...(t.mark === undefined ? {} : { mark: t.mark }),
      }))
    : [];
  const legendMm = legendHeightMm(legend, input.widthMm);
  const y = axisOf(input.y, data.y, { lengthMm: input.heightMm - legendMm - 14, runs: 'up' }, decimalSign);
  const left = TITLE_MM + 3 + Math.max(...y.ticks.map((t) => t.text.length), 1) * TEXT_MM * DIGIT_WIDTH + 1.5;
  const frame: Box = {
    x: left,
    y: 3,
    width: input.widthMm - left - SIDE_MM,
    height: input.heightMm - legendMm - 3 - (TEXT_MM + TITLE_MM + 5),
  };
  if (frame.width < 20 || frame.height < 15)
    throw new RangeError(
      `${String(input.widthMm)} × ${String(input.heightMm)} mm is too small for a picture with axes`,
    );
  const x = axisOf(input.x, data.x, { lengthMm: frame.width, runs: 'along' }, decimalSign);
  return { frame, x, y, area: new PlotArea(frame, x, y, input.cornersMax), legend, legendMm };
}

/** Throws a RangeError as `plotLayout` does. */
export function curvePlot(
  input: CurvePlotInput,
  { x, y, area: plot, legend, legendMm }: PlotLayout = plotLayout(input),
): Drawing {
  const traces = input.traces.map((trace, i) =>
    plot.trace(trace, trace.pen ?? penOf(i), input.traces.length > 1),
  );
  const scene = { marks: input.marks ?? [], lines: input.lines ?? [], gaps: input.gaps ?? [] };
  const linePaths = pathsOf(scene.lines.map((line) => plot.line(line)));
  const ownPaths = pathsOf(traces.at(-1)?.shapes ?? []);
  const over = sceneShapes(scene, plot, {
    // Among many curves there is no room beside all of them; the last one lies above the others, and has the words.
    paths:
      traces.length <= AVOIDED_CURVES_MAX
        ? [...pathsOf(traces.flatMap((t) => t.shapes)), ...linePaths]
        : ownPaths,
    ownPaths,
    points: traces.flatMap((t) => t.shapes.flatMap((shape) => (shape.kind === 'marker' ? [shape] : []))),
  });
  const drawn = traces.reduce((sum, t) => sum + t.points, 0);
  const readings = input.traces.reduce((sum, t) => sum + t.length, 0);
  return {
    widthMm: input.widthMm,
    heightMm: input.heightMm,
    title: input.title,
    description: describe(input, x, y, drawn, readings),
    shapes: [
      ...plot.grid(),
      ...traces.flatMap((t) => t.shapes),
      ...over.beneath,
      ...plot.frameAndScales(),
      ...over.above,
      ...legendShapes(legend, {
        x: SIDE_MM,
        y: input.heightMm - legendMm,
        width: input.widthMm,
        height: legendMm,
      }),
    ],
  };
}

const pathsOf = (shapes: readonly Shape[]): Path[] =>
  shapes.flatMap((shape): Path[] => {
    if (shape.kind === 'path') return [shape];
    if (shape.kind !== 'line') return [];
    return [{ points: [shape.x1, shape.y1, shape.x2, shape.y2], lifts: [0] }];
  });

function extentOf({ traces, lines = [], marks = [], x: xInput, y: yInput }: CurvePlotInput): {
  x: { least: number; most: number };
  y: { least: number; most: number };
} {
  const x = { least: Infinity, most: -Infinity };
  const y = { least: Infinity, most: -Infinity };
  const widen = (range: { least: number; most: number }, value: number): void => {
    if (!Number.isFinite(value)) return;
    range.least = Math.min(range.least, value);
    range.most = Math.max(range.most, value);
  };
  // Fixed ends need no look at the data.
  const isFixed = xInput.range !== undefined && yInput.range !== undefined;
  for (const trace of isFixed ? [] : traces)
    for (let i = 0; i < trace.length; i++) {
      if (Number.isNaN(trace.x[i] ?? Number.NaN) || Number.isNaN(trace.y[i] ?? Number.NaN)) continue;
      widen(x, (trace.x[i] ?? Number.NaN) + (trace.shift ?? 0));
      widen(y, trace.y[i] ?? Number.NaN);
    }
  for (const mark of marks) {
    widen(x, mark.x);
    widen(y, mark.y);
  }
  for (const line of lines) {
    widen(x, line.x1);
    widen(y, line.y1);
  }
  return { x, y };
}

function describe(input: CurvePlotInput, x: Axis, y: Axis, drawn: number, readings: number): string {
  const marks = (input.marks ?? []).flatMap(({ words }) => (words === '' ? [] : [words])).join('; ');
  const isCloud = input.traces.every((trace) => trace.drawn === 'points');
  const thinning =
    drawn >= readings
      ? ''
      : isCloud
        ? ` Drawn with ${String(drawn)} of ${String(readings)} points: of those that lie on each other one.`
        : ` Drawn with ${String(drawn)} of ${String(readings)} readings: of each run a twentieth of a millimetre wide the first, lowest, highest and last.`;
  return `${y.title} over ${x.title}, ${String(input.traces.length)} ${input.traces.length === 1 ? 'curve' : 'curves'}: ${input.traces.map(({ name, mark }) => (mark === undefined ? name : `${name} (${mark})`)).join(', ')}.${marks === '' ? '' : ` Marked: ${marks}.`}${thinning}`;
}
