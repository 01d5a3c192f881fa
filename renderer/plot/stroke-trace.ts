/**
 * Strokes a thinned curve in short pieces. Drawn without a graphics card, one long path that crosses itself (noise)
 * costs far more than its pieces: 4 800 corners took 53 ms in one path with round joins and under 3 ms in pieces of
 * 128 with flat ones, on the machine this was written on.
 */
import type { ThinnedTrace } from '../../core/curve/thinning.ts';
import { type Across, meet } from './canvas-panes.ts';

const PIECE_CORNERS = 128;

export type Corners = Pick<ThinnedTrace, 'x' | 'y' | 'lifts' | 'length'>;

/**
 * Strokes with the context's present colour, width and dash; the dash runs on from piece to piece. `alongBefore`: how
 * far it has run up to the first corner. Pieces that lie wholly outside of `within` are left out.
 */
export function strokeTrace(
  context: CanvasRenderingContext2D,
  trace: Corners,
  alongBefore = 0,
  within: Across = EVERYWHERE,
): void {
  context.lineJoin = 'bevel';
  context.lineCap = 'round';
  const dashed = context.getLineDash().length > 0;
  let along = alongBefore;
  for (let from = 0; from < trace.length; from += PIECE_CORNERS) {
    const to = Math.min(from + PIECE_CORNERS, trace.length);
    if (meet(cornersAcross(trace, from, to, context.lineWidth), within)) {
      context.lineDashOffset = along;
      strokePiece(context, trace, from, to);
    }
    if (dashed) along += lengthAlong(trace, from, to);
  }
  context.lineDashOffset = 0;
}

/** How long the line is from the corner before `from` to the last one before `to`, without its gaps. */
export function lengthAlong({ x, y, lifts }: Corners, from: number, to: number): number {
  let length = 0;
  for (let i = Math.max(from, 1); i < to; i++)
    if (lifts[i] !== 1) length += Math.hypot((x[i] ?? 0) - (x[i - 1] ?? 0), (y[i] ?? 0) - (y[i - 1] ?? 0));
  return length;
}

const EVERYWHERE: Across = { left: -Infinity, right: Infinity };

/** Joined to the corner before. */
function strokePiece(
  context: CanvasRenderingContext2D,
  { x, y, lifts, length }: Corners,
  from: number,
  to: number,
): void {
  context.beginPath();
  if (from > 0) context.moveTo(x[from - 1] ?? 0, y[from - 1] ?? 0);
  for (let i = from; i < to; i++) {
    const [atX, atY] = [x[i] ?? 0, y[i] ?? 0];
    if (lifts[i] === 1) {
      context.moveTo(atX, atY);
      // A lone point between two gaps becomes a dot, not nothing.
      if (i + 1 === length || lifts[i + 1] === 1) context.lineTo(atX, atY);
    } else context.lineTo(atX, atY);
  }
  context.stroke();
}

/** Where corner points from `from` on lie, with the one that they are joined to, and `play` on both sides. */
export function cornersAcross({ x }: Pick<Corners, 'x'>, from: number, to: number, play: number): Across {
  let [left, right] = [Infinity, -Infinity];
  if (to > from)
    for (let i = Math.max(from - 1, 0); i < to; i++) {
      const at = x[i] ?? NaN;
      if (at < left) left = at;
      if (at > right) right = at;
    }
  return { left: left - play, right: right + play };
}
