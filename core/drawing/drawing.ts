/**
 * A drawing as data, in millimetres from the upper left corner: what the SVG export and the certificate both draw,
 * so that they show the same picture. Everything in it can be told apart without colour.
 */

/** Stroke of a line. `dashMm`: lengths of strokes and spaces in turn; absent for a full line. */
export interface Stroke {
  /** #rrggbb. */
  readonly colour: string;
  readonly widthMm: number;
  readonly dashMm?: readonly number[];
}

export const MARKER_FORMS = [
  'circle',
  'square',
  'triangle',
  'diamond',
  'plus',
  'cross',
  // Stands above its place, its tip just over it.
  'pointer',
  // A ring with four posts about its place.
  'target',
] as const;
export type MarkerForm = (typeof MARKER_FORMS)[number];

export type Shape =
  /** Points as x, y, x, y, …; `lifts` holds the numbers of the points at which the pen is set down anew. */
  | {
      readonly kind: 'path';
      readonly points: readonly number[];
      readonly lifts: readonly number[];
      readonly stroke: Stroke;
      /** Cut off at the plot's frame. */
      readonly clip?: Box;
    }
  | {
      readonly kind: 'line';
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly stroke: Stroke;
      readonly clip?: Box;
    }
  | { readonly kind: 'box'; readonly box: Box; readonly stroke?: Stroke; readonly fill?: string }
  | {
      readonly kind: 'marker';
      readonly form: MarkerForm;
      readonly x: number;
      readonly y: number;
      readonly sizeMm: number;
      readonly stroke: Stroke;
      readonly fill: string;
    }
  | {
      readonly kind: 'text';
      readonly x: number;
      /** Of the line that the letters stand on. */
      readonly y: number;
      readonly text: string;
      readonly sizeMm: number;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly colour: string;
      readonly bold?: boolean;
      /** White about the letters, so that they are read over lines. */
      readonly halo?: boolean;
      /** Degrees, clockwise positive, about (x, y). */
      readonly turned?: number;
    };

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Drawing {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Said to who can't see the picture. */
  readonly title: string;
  readonly description: string;
  /** From the back to the front. */
  readonly shapes: readonly Shape[];
}
