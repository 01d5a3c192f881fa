/** A drawing of core/drawing on a canvas: in the colours of the ground that is shown, or in its own ones for paper. */
import type { Drawing, MarkerForm, Shape, Stroke } from '../../core/drawing/drawing.ts';
import { HALO_MM, POINTER, TARGET_RING } from '../../core/drawing/svg-text.ts';
import type { Palette } from '../design/palette.ts';
import { strokeTrace } from './stroke-trace.ts';

export const PLOT_FONT = 'B612, sans-serif';

/** What each colour of a drawing is on a ground; whatever is not named keeps its own. */
const ON_GROUND: Readonly<Record<string, keyof Palette>> = {
  '#ffffff': 'paper',
  '#15191c': 'ink',
  '#495158': 'pencil',
  '#c9cec9': 'rule',
  '#8f3d12': 'bronze',
  '#1a6cc0': 'blue',
  '#5b1f8c': 'purple',
  '#8a6700': 'straw',
  '#59646d': 'grey',
  '#6b747b': 'edge',
  '#b3150c': 'cherry',
  '#e9b83a': 'call',
  '#0a5ab4': 'focus',
};

/** The colour that a drawing's colour has on this ground. */
export function groundColour(palette: Palette | null, colour: string): string {
  const named = ON_GROUND[colour];
  return palette === null || named === undefined ? colour : palette[named];
}

export interface PaintOptions {
  /** Canvas pixels of a millimetre. */
  readonly pxPerMm: number;
  /** Null: as on paper. */
  readonly palette: Palette | null;
}

export function paintDrawing(
  context: CanvasRenderingContext2D,
  drawing: Drawing,
  { pxPerMm, palette }: PaintOptions,
): void {
  context.save();
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = groundColour(palette, '#ffffff');
  context.fillRect(0, 0, context.canvas.width, context.canvas.height);
  context.scale(pxPerMm, pxPerMm);
  for (const shape of drawing.shapes) paintShape(context, shape, palette);
  context.restore();
}

/** Shapes over what is on the canvas already, in millimetres from where the context begins. */
export function paintShapes(
  context: CanvasRenderingContext2D,
  shapes: readonly Shape[],
  { pxPerMm, palette }: PaintOptions,
): void {
  context.save();
  context.scale(pxPerMm, pxPerMm);
  for (const shape of shapes) paintShape(context, shape, palette);
  context.restore();
}

function paintShape(context: CanvasRenderingContext2D, shape: Shape, palette: Palette | null): void {
  context.save();
  const colour = (own: string): string => groundColour(palette, own);
  const pen = ({ colour: own, widthMm, dashMm }: Stroke): void => {
    context.strokeStyle = colour(own);
    context.lineWidth = widthMm;
    context.setLineDash(dashMm === undefined ? [] : [...dashMm]);
  };
  if ((shape.kind === 'path' || shape.kind === 'line') && shape.clip !== undefined) {
    const { x, y, width, height } = shape.clip;
    context.beginPath();
    context.rect(x, y, width, height);
    context.clip();
  }
  switch (shape.kind) {
    case 'path': {
      pen(shape.stroke);
      strokeTrace(context, cornersOf(shape.points, shape.lifts));
      break;
    }
    case 'line':
      pen(shape.stroke);
      context.beginPath();
      context.moveTo(shape.x1, shape.y1);
      context.lineTo(shape.x2, shape.y2);
      context.stroke();
      break;
    case 'box': {
      const { x, y, width, height } = shape.box;
      if (shape.fill !== undefined) {
        context.fillStyle = colour(shape.fill);
        context.fillRect(x, y, width, height);
      }
      if (shape.stroke !== undefined) {
        pen(shape.stroke);
        context.strokeRect(x, y, width, height);
      }
      break;
    }
    case 'marker':
      pen(shape.stroke);
      markerPath(context, shape.form, shape.x, shape.y, shape.sizeMm / 2);
      if (shape.fill !== 'none') {
        context.fillStyle = colour(shape.fill);
        context.fill();
      }
      context.stroke();
      break;
    case 'text':
      context.fillStyle = colour(shape.colour);
      context.font = `${shape.bold === true ? '700 ' : ''}${String(shape.sizeMm)}px ${PLOT_FONT}`;
      context.textAlign = shape.anchor === 'middle' ? 'center' : shape.anchor;
      context.translate(shape.x, shape.y);
      context.rotate(((shape.turned ?? 0) * Math.PI) / 180);
      if (shape.halo === true) {
        context.strokeStyle = colour('#ffffff');
        context.lineWidth = HALO_MM;
        context.lineJoin = 'round';
        context.strokeText(shape.text, 0, 0);
      }
      context.fillText(shape.text, 0, 0);
      break;
  }
  context.restore();
}

function cornersOf(points: readonly number[], lifts: readonly number[]) {
  const length = points.length / 2;
  const corners = {
    length,
    x: new Float64Array(length),
    y: new Float64Array(length),
    lifts: new Uint8Array(length),
  };
  for (let i = 0; i < length; i++) {
    corners.x[i] = points[i * 2] ?? 0;
    corners.y[i] = points[i * 2 + 1] ?? 0;
  }
  corners.lifts[0] = 1;
  for (const at of lifts) corners.lifts[at] = 1;
  return corners;
}

/** `r`: half of the size. */
function markerPath(
  context: CanvasRenderingContext2D,
  form: MarkerForm,
  x: number,
  y: number,
  r: number,
): void {
  const through = (...corners: readonly (readonly [number, number])[]): void => {
    corners.forEach(([dx, dy], i) =>
      i === 0 ? context.moveTo(x + dx, y + dy) : context.lineTo(x + dx, y + dy),
    );
  };
  context.beginPath();
  switch (form) {
    case 'circle':
      context.arc(x, y, r, 0, Math.PI * 2);
      break;
    case 'square':
      through([-r, -r], [r, -r], [r, r], [-r, r]);
      context.closePath();
      break;
    case 'triangle':
      through([0, -r], [r, r], [-r, r]);
      context.closePath();
      break;
    case 'diamond':
      through([0, -r], [r, 0], [0, r], [-r, 0]);
      context.closePath();
      break;
    case 'plus':
      through([-r, 0], [r, 0]);
      through([0, -r], [0, r]);
      break;
    case 'cross':
      through([-r, -r], [r, r]);
      through([-r, r], [r, -r]);
      break;
    case 'pointer':
      through([0, -POINTER.tip * r], [-r, -POINTER.top * r], [r, -POINTER.top * r]);
      context.closePath();
      break;
    case 'target': {
      const ring = TARGET_RING * r;
      context.arc(x, y, ring, 0, Math.PI * 2);
      through([ring, 0], [r, 0]);
      through([-r, 0], [-ring, 0]);
      through([0, -r], [0, -ring]);
      through([0, ring], [0, r]);
      break;
    }
  }
}
