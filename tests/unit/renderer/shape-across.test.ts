/** A shape is painted on every pane that it reaches into: its extent may be too wide, never too narrow. */
import { describe, expect, it } from 'vitest';
import type { Shape } from '../../../core/drawing/drawing.ts';
import { acrossOf } from '../../../renderer/plot/shape-across.ts';

const stroke = { colour: '#000000', widthMm: 0.5 };
const SHAPES: readonly (readonly [string, Shape, number, number])[] = [
  ['a line', { kind: 'line', x1: 40, y1: 0, x2: 10, y2: 9, stroke }, 10, 40],
  ['a path', { kind: 'path', points: [30, 1, 5, 2, 20, 3], lifts: [0], stroke }, 5, 30],
  ['a box', { kind: 'box', box: { x: 7, y: 0, width: 4, height: 1 }, stroke }, 7, 11],
  ['a sign', { kind: 'marker', form: 'target', x: 20, y: 0, sizeMm: 4, stroke, fill: 'none' }, 18, 22],
  // Letters of B612 are at most 0.75 of their size wide (from memory).
  [
    'words',
    { kind: 'text', x: 20, y: 0, text: 'no readings', sizeMm: 3, anchor: 'start', colour: '#000000' },
    20,
    20 + 11 * 3 * 0.75,
  ],
  [
    'words that end there',
    { kind: 'text', x: 60, y: 0, text: 'no readings', sizeMm: 3, anchor: 'end', colour: '#000000' },
    60 - 11 * 3 * 0.75,
    60,
  ],
];

describe('across the drawing', () => {
  it.each(SHAPES)('%s lies within its extent', (_, shape, left, right) => {
    const across = acrossOf(shape);
    expect(across.left).toBeLessThanOrEqual(left);
    expect(across.right).toBeGreaterThanOrEqual(right);
  });

  it('a line that is cut off lies where it is seen: of a hatching each pane draws its own', () => {
    const clip = { x: 20, y: 0, width: 2, height: 50 };
    expect(acrossOf({ kind: 'line', x1: 0, y1: 50, x2: 50, y2: 0, stroke, clip })).toEqual({
      left: 20,
      right: 22,
    });
  });
});
