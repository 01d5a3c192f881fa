/** A drawing of core/drawing on the page, as large as its place, in the colours of the ground, drawn again when it changes. */
import { useEffect, useRef } from 'preact/hooks';
import type { ComponentChildren, HTMLAttributes } from 'preact';
import type { Drawing } from '../../core/drawing/drawing.ts';
import { PALETTES } from '../design/palette.ts';
import { theme } from '../store/view-settings.ts';
import { CSS_PX_PER_MM } from './drawing-scale.ts';
import { paintDrawing } from './paint-drawing.ts';
import { drawSoon } from './plot-clock.ts';
import { redrawnWithPlace } from './redrawn-with-place.ts';
import './drawing-canvas.css';

/** No place is drawn into that is narrower or lower. */
const SIDE_PX_MIN = 120;

/** A place too small for axes stays bare. */
function drawnOrBare(draw: () => Drawing | null): Drawing | null {
  try {
    return draw();
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** CSS pixels to a millimetre of a drawing; a large window has larger print on its axes too. */
export const cssPxPerMm = (): number =>
  (CSS_PX_PER_MM * (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16)) / 16;

export interface DrawingCanvasProps extends Pick<
  HTMLAttributes<HTMLDivElement>,
  | 'id'
  | 'role'
  | 'tabIndex'
  | 'onKeyDown'
  | 'onWheel'
  | 'onPointerDown'
  | 'onPointerMove'
  | 'onPointerUp'
  | 'onPointerLeave'
  | 'onDblClick'
  | 'aria-label'
  | 'aria-valuemin'
  | 'aria-valuemax'
  | 'aria-valuenow'
  | 'aria-valuetext'
> {
  /** Called once for each drawing; null leaves the paper bare. */
  readonly drawing: (widthMm: number, heightMm: number) => Drawing | null;
  /** Whatever makes another drawing. */
  readonly changes: readonly unknown[];
  readonly class?: string;
  /** Laid over the canvas. */
  readonly children?: ComponentChildren;
}

export function DrawingCanvas({ drawing, changes, class: more = '', children, ...rest }: DrawingCanvasProps) {
  const host = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const latest = useRef(drawing);
  latest.current = drawing;
  const draw = useRef(() => {
    const place = host.current;
    const element = canvas.current;
    const context = element?.getContext('2d') ?? null;
    if (place === null || element === null || context === null) return;
    const { clientWidth, clientHeight } = place;
    if (clientWidth < SIDE_PX_MIN || clientHeight < SIDE_PX_MIN) return;
    const ratio = window.devicePixelRatio || 1;
    const width = Math.round(clientWidth * ratio);
    const height = Math.round(clientHeight * ratio);
    if (element.width !== width) element.width = width;
    if (element.height !== height) element.height = height;
    const perMm = cssPxPerMm();
    const palette = PALETTES[theme.value];
    const made = drawnOrBare(() => latest.current(clientWidth / perMm, clientHeight / perMm));
    if (made === null) {
      context.fillStyle = palette.paper;
      context.fillRect(0, 0, width, height);
    } else paintDrawing(context, made, { pxPerMm: perMm * ratio, palette });
    place.dispatchEvent(new CustomEvent('curve-drawn', { bubbles: true }));
  }).current;
  useEffect(() => {
    if (host.current !== null) return redrawnWithPlace(host.current, draw);
  }, []);
  useEffect(() => drawSoon(draw), [theme.value, ...changes]);
  return (
    <div {...rest} ref={host} class={`drawing-canvas ${more}`}>
      <canvas ref={canvas} aria-hidden="true" />
      {children}
    </div>
  );
}
