/** Axes, traces and lines inside a frame: values become places on paper. */
import { thinCurve } from '../curve/thin-curve.ts';
import type { ThinnedTrace } from '../curve/thinning.ts';
import type { Axis } from './axis.ts';
import type { Box, Shape } from './drawing.ts';
import { FRAME, GAP_LINE, GRID, HELP_LINE, INK, PENCIL, type Pen, markerFillOf } from './pens.ts';
import type { PlotLine, PlotTrace } from './plot-input.ts';

/** Corner points of one trace: ten for each millimetre of a wide picture. */
export const TRACE_CORNERS_MAX = 6_000;
/** Pixels of the thinning to a millimetre: a run is a twentieth of a millimetre wide, a fine pen seven times that. */
export const PX_PER_MM = 10;
const MARKER_MM = 1.8;
/** Markers stand this far apart along a trace. */
const MARKER_EVERY_MM = 28;
/** Part of a line's length at which its words stand; those of a level line move on along it where they would cover something. */
const LABEL_ALONG = 0.15;
const LABELS_ALONG = [LABEL_ALONG, 0, 0.3, 0.45, 0.6, 0.75, 1] as const;
/** Markers of one trace; more are a file that nothing opens. */
export const POINTS_MAX = 5_000;
/** With more points than this their markers are small, and of those that lie on each other one is drawn. */
const CROWD_POINTS_MIN = 1_500;
const CROWD_MARKER_MM = 1;
/** Points closer together than this lie on each other; a little further where more than POINTS_MAX would be left. */
const APART_MM = 0.25;
const APART_TIMES = 1.4;
/** So that a level line doesn't run through its words. */
const ABOVE_LINE_MM = 0.8;
const TEXT_MM = 2.8;
const TITLE_MM = 3.2;
/** Width of a digit by its height, for the place that words need. */
const DIGIT_WIDTH = 0.6;

/** The framed part of a picture, between values and places on paper. */
export class PlotArea {
  readonly #frame: Box;
  readonly #x: Axis;
  readonly #y: Axis;
  readonly #cornersMax: number;
  readonly #thinned = new Map<PlotTrace, ThinnedTrace>();

  constructor(frame: Box, x: Axis, y: Axis, cornersMax: number = TRACE_CORNERS_MAX) {
    this.#frame = frame;
    this.#x = x;
    this.#y = y;
    this.#cornersMax = cornersMax;
  }

  get frame(): Box {
    return this.#frame;
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
    if (trace.drawn === 'points') return this.#cloud(trace, pen);
    const each = trace.drawn === 'line-and-points' ? this.#cloud(trace, pen).shapes : null;
    const thinned = this.thinned(trace);
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
        ...(each ?? (markers ? this.#markers(points, pen) : [])),
      ],
    };
  }

  /** Corner points of a trace in tenths of a millimetre; found once, for the picture and for whoever reads it out. */
  thinned(trace: PlotTrace): ThinnedTrace {
    const thinned = this.#thinned.get(trace) ?? this.#thin(trace);
    this.#thinned.set(trace, thinned);
    return thinned;
  }

  #thin(trace: PlotTrace): ThinnedTrace {
    const { x, y, width, height } = this.#frame;
    const perX = (width / (this.#x.max - this.#x.min)) * PX_PER_MM;
    const perY = (-height / (this.#y.max - this.#y.min)) * PX_PER_MM;
    const map = {
      xOffset: x * PX_PER_MM + ((trace.shift ?? 0) - this.#x.min) * perX,
      xPerUnit: perX,
      yOffset: (y + height) * PX_PER_MM - this.#y.min * perY,
      yPerUnit: perY,
    };
    if (trace.index !== undefined)
      return trace.index.thin(
        map,
        {
          left: x * PX_PER_MM,
          right: (x + width) * PX_PER_MM,
          top: y * PX_PER_MM,
          bottom: (y + height) * PX_PER_MM,
        },
        this.#cornersMax,
      );
    return thinCurve({ length: trace.length, x: trace.x, y: trace.y, lifts: trace.gaps ?? [] }, map, {
      cornersMax: this.#cornersMax,
    });
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
        fill: markerFillOf(pen),
      });
    }
    return shapes;
  }

  #cloud(trace: PlotTrace, pen: Pen): { readonly shapes: Shape[]; readonly points: number } {
    const inside = Array.from({ length: trace.length }, (_, i) => ({
      x: this.atX((trace.x[i] ?? Number.NaN) + (trace.shift ?? 0)),
      y: this.atY(trace.y[i] ?? Number.NaN),
    })).filter(({ x, y }) => this.#inside(x, y));
    const isCrowd = inside.length >= CROWD_POINTS_MIN;
    const shapes = (isCrowd ? apart(inside) : inside).map(({ x, y }): Shape => ({
      kind: 'marker',
      form: pen.marker,
      x,
      y,
      sizeMm: isCrowd ? CROWD_MARKER_MM : MARKER_MM,
      stroke: { colour: pen.stroke.colour, widthMm: 0.25 },
      fill: markerFillOf(pen),
    }));
    return { shapes, points: shapes.length };
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

  /**
   * Words to the right of the line, near its beginning: the marks are at its end. Those of a level line stand, above it or
   * below it, where they cover least (`covered`: how much of what is drawn lies in a box).
   */
  lineLabel(
    { x1, y1, x2, y2, words }: PlotLine,
    covered: (box: Box) => number = () => 0,
  ): { readonly shape: Shape; readonly box: Box } | null {
    if (words === undefined) return null;
    const { x, y, width, height } = this.#frame;
    const textWidth = words.length * TEXT_MM * DIGIT_WIDTH;
    const at = (part: number, down: number): { left: number; base: number; box: Box } => {
      const along = (from: number, to: number): number => from + part * (to - from);
      const left = Math.max(Math.min(this.atX(along(x1, x2)) + 1.2, x + width - textWidth - 1), x + 1);
      const wanted = this.atY(along(y1, y2)) + down;
      const base = Math.min(Math.max(wanted, y + TEXT_MM + 1), y + height - 1);
      return { left, base, box: { x: left, y: base - TEXT_MM, width: textWidth, height: TEXT_MM * 1.25 } };
    };
    const places = (y1 === y2 ? LABELS_ALONG : [LABEL_ALONG]).flatMap((part) => [
      at(part, -ABOVE_LINE_MM),
      ...(y1 === y2 ? [at(part, TEXT_MM + ABOVE_LINE_MM)] : []),
    ]);
    let best = places[0] ?? at(LABEL_ALONG, -ABOVE_LINE_MM);
    let least = Infinity;
    // A sloping line has one place, and its picture is drawn often.
    for (const place of places.length > 1 ? places : []) {
      const its = covered(place.box);
      if (its < least) [best, least] = [place, its];
      if (least === 0) break;
    }
    const { left, base, box } = best;
    return {
      shape: {
        kind: 'text',
        x: left,
        y: base,
        text: words,
        sizeMm: TEXT_MM,
        anchor: 'start',
        colour: PENCIL,
        halo: true,
      },
      box,
    };
  }
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** At most POINTS_MAX of them, one in each square of a grid that is as fine as that allows: what stands alone stays. */
function apart(places: readonly Place[]): readonly Place[] {
  for (let side = APART_MM; ; side *= APART_TIMES) {
    const taken = new Map<string, Place>();
    for (const place of places) {
      const key = `${String(Math.floor(place.x / side))} ${String(Math.floor(place.y / side))}`;
      if (!taken.has(key)) taken.set(key, place);
    }
    if (taken.size <= POINTS_MAX) return [...taken.values()];
  }
}
