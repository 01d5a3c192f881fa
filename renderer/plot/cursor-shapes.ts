/** The cursor of a picture. */
import type { PlotLayout } from '../../core/drawing/curve-plot.ts';
import type { Shape } from '../../core/drawing/drawing.ts';
import { INK } from '../../core/drawing/pens.ts';

/** Hair lines through a point, in the units of the axes, and a ring about it; nothing where it has no place. */
export function cursorAt({ frame, area }: PlotLayout, atX: number, atY: number): Shape[] {
  const x = area.atX(atX);
  const y = area.atY(atY);
  if (!Number.isFinite(x) || !Number.isFinite(y)) return [];
  const stroke = { colour: INK, widthMm: 0.2 };
  return [
    { kind: 'line', x1: x, y1: frame.y, x2: x, y2: frame.y + frame.height, stroke, clip: frame },
    { kind: 'line', x1: frame.x, y1: y, x2: frame.x + frame.width, y2: y, stroke, clip: frame },
    {
      kind: 'marker',
      form: 'circle',
      x,
      y,
      sizeMm: 2.6,
      stroke: { colour: INK, widthMm: 0.5 },
      fill: 'none',
    },
  ];
}
