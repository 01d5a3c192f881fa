/** From where to where a shape lies across a drawing, in its millimetres; never less than what is painted of it. */
import type { Shape } from '../../core/drawing/drawing.ts';
import type { Across } from './canvas-panes.ts';

/** The widest letters of the face, in heights of its letters. */
const LETTER_WIDTH_MAX = 1;
/** Halo and the ends of strokes. */
const BESIDE_MM = 1;

export function acrossOf(shape: Shape): Across {
  switch (shape.kind) {
    case 'path':
      return clipped(among(shape.points.filter((_, i) => i % 2 === 0)), shape.clip);
    case 'line':
      return clipped(among([shape.x1, shape.x2]), shape.clip);
    case 'box':
      return wider({ left: shape.box.x, right: shape.box.x + shape.box.width }, BESIDE_MM);
    case 'marker':
      return wider({ left: shape.x, right: shape.x }, shape.sizeMm + BESIDE_MM);
    case 'text':
      // Turned and anchored anywhere it stays within its length of where it begins.
      return wider(
        { left: shape.x, right: shape.x },
        (shape.text.length + 1) * shape.sizeMm * LETTER_WIDTH_MAX + BESIDE_MM,
      );
  }
}

const wider = ({ left, right }: Across, byMm: number): Across => ({ left: left - byMm, right: right + byMm });

function among(places: readonly number[]): Across {
  let [left, right] = [Infinity, -Infinity];
  for (const x of places) {
    if (x < left) left = x;
    if (x > right) right = x;
  }
  return wider({ left, right }, BESIDE_MM);
}

function clipped(across: Across, clip: { readonly x: number; readonly width: number } | undefined): Across {
  return clip === undefined
    ? across
    : { left: Math.max(across.left, clip.x), right: Math.min(across.right, clip.x + clip.width) };
}
