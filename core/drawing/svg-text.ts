/** A drawing as SVG text: one file, nothing loaded from elsewhere, size in millimetres. */
import { escapedMarkup as escaped } from './escaped-markup.ts';
import type { Box, Drawing, MarkerForm, Shape, Stroke } from './drawing.ts';

export interface SvgOptions {
  /** As CSS writes it; the fonts must be there where the file is shown. */
  readonly fontFamily?: string;
  /** Put before the names inside the drawing, where several drawings stand in one page. */
  readonly idPrefix?: string;
}

/** Of half the size: how far the pointer's tip and its upper side stand above its place. */
export const POINTER = { tip: 0.3, top: 1.85 } as const;
/** Radius of the target's ring as part of half its size. */
export const TARGET_RING = 0.64;

/** Width of the white about letters, both sides together. */
export const HALO_MM = 0.9;

/** The first of those that a picture asks for. */
export const PICTURE_FONT = 'Atkinson Hyperlegible';
const DEFAULT_FONT = `'${PICTURE_FONT}', 'DejaVu Sans', Arial, sans-serif`;

export function svgText(
  drawing: Drawing,
  { fontFamily = DEFAULT_FONT, idPrefix = '' }: SvgOptions = {},
): string {
  const clips = new Clips(idPrefix);
  const shapes = drawing.shapes.map((shape) => elementOf(shape, clips));
  const { widthMm, heightMm } = drawing;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${mm(widthMm)}mm" height="${mm(heightMm)}mm" viewBox="0 0 ${mm(widthMm)} ${mm(heightMm)}" font-family="${escaped(fontFamily)}">`,
    `<title>${escaped(drawing.title)}</title>`,
    `<desc>${escaped(drawing.description)}</desc>`,
    ...clips.elements(),
    `<rect width="${mm(widthMm)}" height="${mm(heightMm)}" fill="#ffffff"/>`,
    ...shapes,
    '</svg>',
    '',
  ].join('\n');
}

/** Frames that lines are cut off at, each written once. */
class Clips {
  readonly #boxes: Box[] = [];
  readonly #prefix: string;

  constructor(prefix: string) {
    this.#prefix = prefix;
  }

  attribute(box: Box | undefined): string {
    if (box === undefined) return '';
    let at = this.#boxes.findIndex(
      (b) => b.x === box.x && b.y === box.y && b.width === box.width && b.height === box.height,
    );
    if (at === -1) at = this.#boxes.push(box) - 1;
    return ` clip-path="url(#${this.#prefix}frame-${String(at)})"`;
  }

  elements(): string[] {
    return this.#boxes.map(
      (box, i) => `<clipPath id="${this.#prefix}frame-${String(i)}"><rect ${boxAttributes(box)}/></clipPath>`,
    );
  }
}

function elementOf(shape: Shape, clips: Clips): string {
  switch (shape.kind) {
    case 'path':
      return `<path d="${pathOf(shape.points, shape.lifts)}" fill="none"${strokeOf(shape.stroke)} stroke-linejoin="round"${clips.attribute(shape.clip)}/>`;
    case 'line':
      return `<line x1="${mm(shape.x1)}" y1="${mm(shape.y1)}" x2="${mm(shape.x2)}" y2="${mm(shape.y2)}"${strokeOf(shape.stroke)}${clips.attribute(shape.clip)}/>`;
    case 'box':
      return `<rect ${boxAttributes(shape.box)} fill="${shape.fill ?? 'none'}"${shape.stroke === undefined ? '' : strokeOf(shape.stroke)}/>`;
    case 'marker':
      return `<path d="${markerPath(shape.form, shape.x, shape.y, shape.sizeMm / 2)}" fill="${shape.fill}"${strokeOf(shape.stroke)}/>`;
    case 'text': {
      const turned =
        shape.turned === undefined
          ? ''
          : ` transform="rotate(${mm(shape.turned)} ${mm(shape.x)} ${mm(shape.y)})"`;
      const bold = shape.bold === true ? ' font-weight="bold"' : '';
      const halo =
        shape.halo === true
          ? ` stroke="#ffffff" stroke-width="${mm(HALO_MM)}" stroke-linejoin="round" paint-order="stroke"`
          : '';
      return `<text x="${mm(shape.x)}" y="${mm(shape.y)}" font-size="${mm(shape.sizeMm)}" text-anchor="${shape.anchor}" fill="${shape.colour}"${halo}${bold}${turned}>${escaped(shape.text)}</text>`;
    }
  }
}

function pathOf(points: readonly number[], lifts: readonly number[]): string {
  const down = new Set(lifts);
  const steps: string[] = [];
  for (let i = 0; i * 2 < points.length; i++)
    steps.push(
      `${i === 0 || down.has(i) ? 'M' : 'L'}${mm(points[i * 2] ?? 0)} ${mm(points[i * 2 + 1] ?? 0)}`,
    );
  return steps.join('');
}

/** `r`: half of the size. */
export function markerPath(form: MarkerForm, x: number, y: number, r: number): string {
  const at = (dx: number, dy: number): string => `${mm(x + dx)} ${mm(y + dy)}`;
  switch (form) {
    case 'circle':
      return `M${at(-r, 0)}A${mm(r)} ${mm(r)} 0 1 0 ${at(r, 0)}A${mm(r)} ${mm(r)} 0 1 0 ${at(-r, 0)}Z`;
    case 'square':
      return `M${at(-r, -r)}L${at(r, -r)}L${at(r, r)}L${at(-r, r)}Z`;
    case 'triangle':
      return `M${at(0, -r)}L${at(r, r)}L${at(-r, r)}Z`;
    case 'diamond':
      return `M${at(0, -r)}L${at(r, 0)}L${at(0, r)}L${at(-r, 0)}Z`;
    case 'plus':
      return `M${at(-r, 0)}L${at(r, 0)}M${at(0, -r)}L${at(0, r)}`;
    case 'cross':
      return `M${at(-r, -r)}L${at(r, r)}M${at(-r, r)}L${at(r, -r)}`;
    case 'pointer':
      return `M${at(0, -POINTER.tip * r)}L${at(-r, -POINTER.top * r)}L${at(r, -POINTER.top * r)}Z`;
    case 'target': {
      const ring = TARGET_RING * r;
      return `M${at(-ring, 0)}A${mm(ring)} ${mm(ring)} 0 1 0 ${at(ring, 0)}A${mm(ring)} ${mm(ring)} 0 1 0 ${at(-ring, 0)}ZM${at(ring, 0)}L${at(r, 0)}M${at(-r, 0)}L${at(-ring, 0)}M${at(0, -r)}L${at(0, -ring)}M${at(0, ring)}L${at(0, r)}`;
    }
  }
}

function strokeOf({ colour, widthMm, dashMm }: Stroke): string {
  const dash = dashMm === undefined ? '' : ` stroke-dasharray="${dashMm.map(mm).join(' ')}"`;
  return ` stroke="${colour}" stroke-width="${mm(widthMm)}"${dash}`;
}

function boxAttributes({ x, y, width, height }: Box): string {
  return `x="${mm(x)}" y="${mm(y)}" width="${mm(width)}" height="${mm(height)}"`;
}

/** Three places: a micrometre. */
function mm(value: number): string {
  return String(Number(value.toFixed(3)));
}
