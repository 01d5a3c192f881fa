/** Curves in one picture: axes, traces with dash and marker, elastic and offset lines, marks, gaps, a legend. */
import { thinCurve } from '../curve/thin-curve.ts';
import { type Axis, type AxisInput, axisOf } from './axis.ts';
import type { Box, Drawing, Shape } from './drawing.ts';
import { legendHeightMm, legendShapes } from './legend.ts';
import { markShapes } from './mark-shapes.ts';
import { FRAME, GAP_LINE, GRID, HELP_LINE, INK, PENCIL, type Pen, penOf } from './pens.ts';

/** Values in the units of the axes; NaN where there is none. */
export interface PlotTrace {
  readonly name: string;
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly length: number;
  /** Readings before which nothing was received. */
  readonly gaps?: readonly number[];
  readonly pen?: Pen;
}

/** A place on a curve with its words: "Rm 512 MPa", "break". */
export interface PlotMark {
  readonly x: number;
  readonly y: number;
  readonly words: string;
}

/** A straight line: the elastic line, an offset line, a minimum. */
export interface PlotLine {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly words?: string;
}

export interface CurvePlotInput {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly title: string;
  readonly x: AxisInput;
  readonly y: AxisInput;
  readonly traces: readonly PlotTrace[];
  readonly lines?: readonly PlotLine[];
  readonly marks?: readonly PlotMark[];
  readonly decimalSign?: '.' | ',';
}

/** Curves in one picture; more can't be told apart however they are dashed. */
export const PLOT_TRACES_MAX = 200;
/** Corner points of one trace: ten for each millimetre of a wide picture. */
const CORNERS_MAX = 6_000;
/** Pixels of the thinning to a millimetre: a run is a twentieth of a millimetre wide, a fine pen seven times that. */
const PX_PER_MM = 10;
const TEXT_MM = 2.8;
const TITLE_MM = 3.2;
/** Width of a digit by its height, for the place that the scale needs. */
const DIGIT_WIDTH = 0.6;
const MARKER_MM = 1.8;
/** Paper kept free at the sides. */
const SIDE_MM = 4;
/** Part of a line's length at which its words stand. */
const LABEL_ALONG = 0.15;
/** Markers stand this far apart along a trace. */
const MARKER_EVERY_MM = 28;

/** Throws a RangeError where there are more traces than can be told apart, or the picture is too small for its axes. */
export function curvePlot(input: CurvePlotInput): Drawing {
  if (input.traces.length > PLOT_TRACES_MAX)
    throw new RangeError(
      `${String(input.traces.length)} curves, at most ${String(PLOT_TRACES_MAX)} go into one picture`,
    );
  const decimalSign = input.decimalSign ?? '.';
  const data = extentOf(input);
  const legend =
    input.traces.length > 1 ? input.traces.map((t, i) => ({ name: t.name, pen: t.pen ?? penOf(i) })) : [];
  const legendMm = legendHeightMm(legend.length, input.widthMm);
  const y = axisOf(input.y, data.y, input.heightMm - legendMm - 14, decimalSign);
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
  const x = axisOf(input.x, data.x, frame.width, decimalSign);
  const plot = new Plot(frame, x, y);
  const lineLabels = (input.lines ?? []).flatMap((line) => plot.lineLabel(line) ?? []);
  const marks = (input.marks ?? []).map(({ words, x: at, y: height }) => ({
    words,
    x: plot.atX(at),
    y: plot.atY(height),
  }));
  const traces = input.traces.map((trace, i) =>
    plot.trace(trace, trace.pen ?? penOf(i), input.traces.length > 1),
  );
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
      ...(input.lines ?? []).map((line) => plot.line(line)),
      ...plot.frameAndScales(),
      ...lineLabels.map((label) => label.shape),
      ...markShapes(
        marks,
        frame,
        lineLabels.map((label) => label.box),
      ),
      ...legendShapes(legend, {
        x: SIDE_MM,
        y: input.heightMm - legendMm,
        width: input.widthMm,
        height: legendMm,
      }),
    ],
  };
}

class Plot {
  readonly #frame: Box;
  readonly #x: Axis;
  readonly #y: Axis;

  constructor(frame: Box, x: Axis, y: Axis) {
    this.#frame = frame;
    this.#x = x;
    this.#y = y;
  }

  atX(value: number): number {
    return this.#frame.x + ((value - this.#x.min) / (this.#x.max - this.#x.min)) * this.#frame.width;
  }

  atY(value: number): number {
    const { y, height } = this.#frame;
    return y + height - ((value - this.#y.min) / (this.#y.max - this.#y.min)) * height;
  }

  grid(): Shape[] {
    const { x, y, width, height } = this.#frame;
    return [
      { kind: 'box', box: this.#frame, fill: '#ffffff' },
      ...this.#x.ticks.map(({ value }): Shape => ({
        kind: 'line',
        x1: this.atX(value),
        y1: y,
        x2: this.atX(value),
        y2: y + height,
        stroke: GRID,
      })),
      ...this.#y.ticks.map(({ value }): Shape => ({
        kind: 'line',
        x1: x,
        y1: this.atY(value),
        x2: x + width,
        y2: this.atY(value),
        stroke: GRID,
      })),
    ];
  }

  frameAndScales(): Shape[] {
    const { x, y, width, height } = this.#frame;
    const below = y + height;
    const text = (
      props: Omit<Extract<Shape, { kind: 'text' }>, 'kind' | 'colour' | 'sizeMm'>,
      sizeMm = TEXT_MM,
    ): Shape => ({
      kind: 'text',
      sizeMm,
      colour: INK,
      ...props,
    });
    return [
      { kind: 'box', box: this.#frame, stroke: FRAME },
      ...this.#x.ticks.map(({ value, text: label }) =>
        text({ x: this.atX(value), y: below + TEXT_MM + 1, text: label, anchor: 'middle' }),
      ),
      ...this.#y.ticks.map(({ value, text: label }) =>
        text({ x: x - 1, y: this.atY(value) + TEXT_MM * 0.35, text: label, anchor: 'end' }),
      ),
      text(
        { x: x + width / 2, y: below + TEXT_MM + TITLE_MM + 2.6, text: this.#x.title, anchor: 'middle' },
        TITLE_MM,
      ),
      text({ x: TITLE_MM, y: y + height / 2, text: this.#y.title, anchor: 'middle', turned: -90 }, TITLE_MM),
    ];
  }

  trace(trace: PlotTrace, pen: Pen, markers: boolean): { readonly shapes: Shape[]; readonly points: number } {
    const perX = (this.#frame.width / (this.#x.max - this.#x.min)) * PX_PER_MM;
    const perY = (-this.#frame.height / (this.#y.max - this.#y.min)) * PX_PER_MM;
    const map = {
      xOffset: this.#frame.x * PX_PER_MM - this.#x.min * perX,
      xPerUnit: perX,
      yOffset: (this.#frame.y + this.#frame.height) * PX_PER_MM - this.#y.min * perY,
      yPerUnit: perY,
    };
    const thinned = thinCurve(
      { length: trace.length, x: trace.x, y: trace.y, lifts: trace.gaps ?? [] },
      map,
      { cornersMax: CORNERS_MAX },
    );
    const points: number[] = [];
    const lifts: number[] = [];
    for (let i = 0; i < thinned.length; i++) {
      points.push((thinned.x[i] ?? 0) / PX_PER_MM, (thinned.y[i] ?? 0) / PX_PER_MM);
      if (thinned.lifts[i] === 1) lifts.push(i);
    }
    const gaps = lifts.filter((at) => at > 0).map((at) => this.#gap(points, at));
    return {
      points: thinned.length,
      shapes: [
        { kind: 'path', points, lifts, stroke: pen.stroke, clip: this.#frame },
        ...gaps,
        ...(markers ? this.#markers(points, pen) : []),
      ],
    };
  }

  /** What wasn't received is bridged by a dotted line, so that nobody takes it for a measured one. */
  #gap(points: readonly number[], at: number): Shape {
    return {
      kind: 'line',
      x1: points[at * 2 - 2] ?? 0,
      y1: points[at * 2 - 1] ?? 0,
      x2: points[at * 2] ?? 0,
      y2: points[at * 2 + 1] ?? 0,
      stroke: GAP_LINE,
      clip: this.#frame,
    };
  }

  #markers(points: readonly number[], pen: Pen): Shape[] {
    const shapes: Shape[] = [];
    // The first one a little along the curve: at the origin all curves lie on each other.
    let sinceLast = MARKER_EVERY_MM / 2;
    for (let i = 2; i < points.length; i += 2) {
      const x = points[i] ?? 0;
      const y = points[i + 1] ?? 0;
      sinceLast += Math.hypot(x - (points[i - 2] ?? 0), y - (points[i - 1] ?? 0));
      if (sinceLast < MARKER_EVERY_MM || !this.#inside(x, y)) continue;
      sinceLast = 0;
      shapes.push({
        kind: 'marker',
        form: pen.marker,
        x,
        y,
        sizeMm: MARKER_MM,
        stroke: { colour: pen.stroke.colour, widthMm: 0.25 },
        fill: '#ffffff',
      });
    }
    return shapes;
  }

  #inside(x: number, y: number): boolean {
    const frame = this.#frame;
    return x >= frame.x && x <= frame.x + frame.width && y >= frame.y && y <= frame.y + frame.height;
  }

  line({ x1, y1, x2, y2 }: PlotLine): Shape {
    return {
      kind: 'line',
      x1: this.atX(x1),
      y1: this.atY(y1),
      x2: this.atX(x2),
      y2: this.atY(y2),
      stroke: HELP_LINE,
      clip: this.#frame,
    };
  }

  /** Words to the right of the line, near its beginning: the marks are at its end. */
  lineLabel({ x1, y1, x2, y2, words }: PlotLine): { readonly shape: Shape; readonly box: Box } | null {
    if (words === undefined) return null;
    const along = (from: number, to: number): number => from + LABEL_ALONG * (to - from);
    const { x, y, width, height } = this.#frame;
    const textWidth = words.length * TEXT_MM * DIGIT_WIDTH;
    const left = Math.min(this.atX(along(x1, x2)) + 1.2, x + width - textWidth - 1);
    const base = Math.min(Math.max(this.atY(along(y1, y2)), y + TEXT_MM + 1), y + height - 1);
    return {
      shape: {
        kind: 'text',
        x: left,
        y: base,
        text: words,
        sizeMm: TEXT_MM,
        anchor: 'start',
        colour: PENCIL,
      },
      box: { x: left, y: base - TEXT_MM, width: textWidth, height: TEXT_MM * 1.25 },
    };
  }
}

function extentOf({ traces, lines = [], marks = [] }: CurvePlotInput): {
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
  for (const trace of traces)
    for (let i = 0; i < trace.length; i++) {
      if (Number.isNaN(trace.x[i] ?? Number.NaN) || Number.isNaN(trace.y[i] ?? Number.NaN)) continue;
      widen(x, trace.x[i] ?? Number.NaN);
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
  const marks = (input.marks ?? []).map((mark) => mark.words).join('; ');
  const thinning =
    drawn < readings
      ? ` Drawn with ${String(drawn)} of ${String(readings)} readings: of each run a twentieth of a millimetre wide the first, lowest, highest and last.`
      : '';
  return `${y.title} over ${x.title}, ${String(input.traces.length)} ${input.traces.length === 1 ? 'curve' : 'curves'}: ${input.traces.map((t) => t.name).join(', ')}.${marks === '' ? '' : ` Marked: ${marks}.`}${thinning}`;
}
