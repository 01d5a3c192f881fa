/**
 * Strokes a thinned curve in short pieces. Drawn without a graphics card, one long path that crosses itself (noise)
 * costs far more than its pieces: 4 800 corners took 53 ms in one path with round joins and under 3 ms in pieces of
 * 128 with flat ones, on the machine this was written on.
 */
import type { ThinnedTrace } from '../../core/curve/thinning.ts';

const PIECE_CORNERS = 128;

export type Corners = Pick<ThinnedTrace, 'x' | 'y' | 'lifts' | 'length'>;

/** Strokes with the context's present colour, width and dash; the dash runs on from piece to piece. */
export function strokeTrace(context: CanvasRenderingContext2D, trace: Corners): void {
  context.lineJoin = 'bevel';
  context.lineCap = 'round';
  const dashed = context.getLineDash().length > 0;
  let along = 0;
  let begun = 0;
  context.beginPath();
  for (let i = 0; i < trace.length; i++) {
    const x = trace.x[i] ?? 0;
    const y = trace.y[i] ?? 0;
    if (trace.lifts[i] === 1) {
      context.moveTo(x, y);
      // A lone point between two gaps becomes a dot, not nothing.
      if (i + 1 === trace.length || trace.lifts[i + 1] === 1) context.lineTo(x, y);
    } else {
      context.lineTo(x, y);
      if (dashed) along += Math.hypot(x - (trace.x[i - 1] ?? x), y - (trace.y[i - 1] ?? y));
    }
    if (++begun < PIECE_CORNERS) continue;
    context.stroke();
    context.beginPath();
    context.moveTo(x, y);
    context.lineDashOffset = along;
    begun = 0;
  }
  context.stroke();
  context.lineDashOffset = 0;
}
