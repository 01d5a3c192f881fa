/** What a picture of curves is made from. */
import type { CurveIndex } from '../curve/curve-index.ts';
import type { AxisInput } from './axis.ts';
import type { MarkSign } from './mark-sign.ts';
import type { Pen } from './pens.ts';

/** What of its axes a plot shows, in their units. */
export interface PlotRange {
  readonly x: { readonly min: number; readonly max: number };
  readonly y: { readonly min: number; readonly max: number };
}

/** Values in the units of the axes; NaN where there is none. */
export interface PlotTrace {
  readonly name: string;
  /** Said beneath the name wherever that stands: "SIMULATED". */
  readonly mark?: string;
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly length: number;
  /** Readings before which nothing was received. */
  readonly gaps?: readonly number[];
  readonly pen?: Pen;
  /** Added to every x (alignment). */
  readonly shift?: number;
  /** Of x and y, made beforehand where a picture is drawn again and again. */
  readonly index?: CurveIndex;
  /** Default: a line, with a marker now and then where there are several. Points: a marker for each; of many that lie on each other one. */
  readonly drawn?: 'line' | 'points' | 'line-and-points';
}

/** A place on a curve with its words: "Rm 512 MPa", "break"; without words a sign alone. */
export interface PlotMark {
  readonly x: number;
  readonly y: number;
  readonly words: string;
  /** Default: that of a yield point, a plus. */
  readonly sign?: MarkSign;
  /** Default: that of the sign. */
  readonly colour?: string;
}

/** A straight line: the elastic line, an offset line, a minimum. */
export interface PlotLine {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly words?: string;
}

/** A stretch of the x axis in which nothing was received. */
export interface PlotGap {
  readonly fromX: number;
  readonly toX: number;
  readonly words: string;
}

/** What is drawn over the curves, in the units of the axes: the same for the live plot, the exports and the certificate. */
export interface Scene {
  readonly marks: readonly PlotMark[];
  readonly lines: readonly PlotLine[];
  readonly gaps: readonly PlotGap[];
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
  readonly gaps?: readonly PlotGap[];
  readonly decimalSign?: '.' | ',';
  /** False where the names of the curves stand elsewhere; default: where there are several. */
  readonly legend?: boolean;
  /** Corner points of one trace at most. */
  readonly cornersMax?: number;
}
