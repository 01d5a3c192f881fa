import { describe, expect, it } from 'vitest';
import { lengthAlong, strokeTrace } from '../../../renderer/plot/stroke-trace.ts';

type Line = readonly [number, number];

/** What a canvas would stroke, on a line with a corner at each whole number: from where to where, and how far its dash had run. */
class Strokes {
  readonly lines: Line[] = [];
  readonly dashes: number[] = [];
  readonly lineWidth = 2;
  lineDashOffset = 0;
  readonly #dash: readonly number[];
  #at: number | null = null;

  constructor(dash: readonly number[] = []) {
    this.#dash = dash;
  }

  getLineDash(): readonly number[] {
    return this.#dash;
  }
  beginPath(): void {
    this.#at = null;
  }
  moveTo(x: number): void {
    this.#at = x;
  }
  lineTo(x: number): void {
    if (this.#at !== null) this.lines.push([this.#at, x]);
    this.#at = x;
  }
  stroke(): void {
    this.dashes.push(this.lineDashOffset);
  }
  get context(): CanvasRenderingContext2D {
    return this as unknown as CanvasRenderingContext2D;
  }
}

function lineWithCorners(length: number, liftsAt: readonly number[] = []) {
  const x = Float64Array.from({ length }, (_, i) => i);
  const lifts = new Uint8Array(length);
  for (const i of [0, ...liftsAt]) lifts[i] = 1;
  return { x, y: new Float64Array(length), lifts, length };
}

const joined = (strokes: Strokes): Line[] => strokes.lines.filter(([from, to]) => from !== to);
const upTo = (last: number, first = 0): Line[] =>
  Array.from({ length: last - first }, (_, i) => [first + i, first + i + 1]);

describe('a curve on the canvas', () => {
  // The path is stroked in pieces of 128 corners; a gap may fall on any of their ends.
  it.each([1, 126, 127, 128, 129, 256, 299])('has no line over a gap before corner %i (C4)', (gap) => {
    const strokes = new Strokes();
    strokeTrace(strokes.context, lineWithCorners(300, [gap]));
    expect(joined(strokes)).toEqual(upTo(299).filter(([, to]) => to !== gap));
  });

  it('leaves out the pieces that lie beside what is asked for, and no line that reaches into it', () => {
    const strokes = new Strokes();
    strokeTrace(strokes.context, lineWithCorners(1000), 0, { left: 400, right: 500 });
    const drawn = joined(strokes);
    expect(drawn.length).toBeLessThan(400);
    for (const line of upTo(501, 399)) expect(drawn).toContainEqual(line);
  });

  it('has a dash that runs on over pieces, over pieces left out, and from where a drawing before it ended', () => {
    const whole = new Strokes([6, 3]);
    strokeTrace(whole.context, lineWithCorners(300), 5);
    expect(whole.dashes).toEqual([5, 5 + 127, 5 + 255]);
    const part = new Strokes([6, 3]);
    strokeTrace(part.context, lineWithCorners(300), 5, { left: 280, right: 290 });
    expect(part.dashes).toEqual([5 + 255]);
  });

  it('is as long as its lines, without its gaps', () => {
    const corners = lineWithCorners(300, [100]);
    expect(lengthAlong(corners, 0, 300)).toBe(298);
    expect(lengthAlong(corners, 0, 150) + lengthAlong(corners, 150, 300)).toBe(298);
  });
});
