import { describe, expect, it } from 'vitest';
import { strokeTrace } from '../../../renderer/plot/stroke-trace.ts';

/** From where to where lines are drawn, as a canvas would stroke them. */
function linesOf(length: number, liftsAt: readonly number[]): (readonly [number, number])[] {
  const lines: [number, number][] = [];
  let at: number | null = null;
  const context = {
    getLineDash: () => [],
    beginPath: () => void (at = null),
    moveTo: (x: number) => void (at = x),
    lineTo: (x: number) => {
      if (at !== null) lines.push([at, x]);
      at = x;
    },
    stroke: () => undefined,
  };
  const x = Float64Array.from({ length }, (_, i) => i);
  const lifts = new Uint8Array(length);
  for (const i of [0, ...liftsAt]) lifts[i] = 1;
  strokeTrace(context as unknown as CanvasRenderingContext2D, { x, y: x, lifts, length });
  return lines;
}

describe('a curve on the canvas', () => {
  // The path is stroked in pieces of 128 corners; a gap may fall on any of their ends.
  it.each([1, 126, 127, 128, 129, 256, 299])('has no line over a gap before corner %i (C4)', (gap) => {
    const drawn = linesOf(300, [gap]).filter(([from, to]) => from !== to);
    expect(drawn).toEqual(Array.from({ length: 299 }, (_, i) => [i, i + 1]).filter(([, to]) => to !== gap));
  });
});
