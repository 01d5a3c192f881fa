/** One scene, two painters: what lies over a curve stands at the same places on a canvas and in an SVG file. */
import { describe, expect, it } from 'vitest';
import { curvePlot } from '../../../core/drawing/curve-plot.ts';
import type { Shape } from '../../../core/drawing/drawing.ts';
import { foundMarks, offsetLines } from '../../../core/drawing/found-on-curve.ts';
import { MARK_SIGNS } from '../../../core/drawing/mark-sign.ts';
import { PlotArea } from '../../../core/drawing/plot-area.ts';
import type { Scene } from '../../../core/drawing/plot-input.ts';
import { sceneShapes } from '../../../core/drawing/scene-shapes.ts';
import { svgText } from '../../../core/drawing/svg-text.ts';
import { paintShapes } from '../../../renderer/plot/paint-drawing.ts';

const FRAME = { x: 12, y: 4, width: 120, height: 70 };
const area = new PlotArea(
  FRAME,
  { min: 0, max: 20, ticks: [], title: 'extension' },
  { min: 0, max: 50, ticks: [], title: 'load' },
);
const SCENE: Scene = {
  marks: MARK_SIGNS.map((sign, i) => ({ sign, x: 1 + 2.5 * i, y: 20 + 3 * i, words: sign })),
  lines: [{ x1: 0.1, y1: 0, x2: 0.6, y2: 26, words: '0.2 % offset' }],
  gaps: [{ fromX: 16, toX: 18, words: 'no readings for 2.0 s' }],
};
const shapes: Shape[] = (({ beneath, above }) => [...beneath, ...above])(sceneShapes(SCENE, area));

interface At {
  readonly x: number;
  readonly y: number;
}

/** What is painted, in canvas pixels: where each stroke begins and each word stands. */
function onCanvas(pxPerMm: number): { begins: At[]; words: (At & { text: string })[] } {
  const begins: At[] = [];
  const words: (At & { text: string })[] = [];
  let [scale, dx, dy] = [1, 0, 0];
  const kept: [number, number, number][] = [];
  let isFresh = true;
  const at = (x: number, y: number): At => ({ x: scale * (x + dx), y: scale * (y + dy) });
  const begin = (x: number, y: number): void => {
    if (isFresh) begins.push(at(x, y));
    isFresh = false;
  };
  const nothing = (): void => undefined;
  const context = {
    save: () => kept.push([scale, dx, dy]),
    restore: () => ([scale, dx, dy] = kept.pop() ?? [1, 0, 0]),
    scale: (a: number) => ([scale, dx, dy] = [scale * a, dx / a, dy / a]),
    translate: (x: number, y: number) => {
      dx += x;
      dy += y;
    },
    beginPath: () => (isFresh = true),
    moveTo: begin,
    // An arc begins to the right of its middle; its left end is where the file begins.
    arc: (x: number, y: number, r: number) => begin(x - r, y),
    fillText: (text: string, x: number, y: number) => words.push({ ...at(x, y), text }),
    ...Object.fromEntries(
      ['rect', 'clip', 'lineTo', 'closePath', 'fill', 'stroke', 'strokeText', 'rotate', 'setLineDash'].map(
        (name) => [name, nothing],
      ),
    ),
  };
  paintShapes(context as unknown as CanvasRenderingContext2D, shapes, { pxPerMm, palette: null });
  return { begins, words };
}

/** The same, read from the file, in millimetres. */
function inFile(): { begins: At[]; words: (At & { text: string })[] } {
  const svg = svgText({ widthMm: 140, heightMm: 80, title: 't', description: 'd', shapes });
  const body = svg.slice(svg.indexOf('fill="#ffffff"/>'));
  const begins = [...body.matchAll(/<line x1="([-\d.]+)" y1="([-\d.]+)"|<path d="M([-\d.]+) ([-\d.]+)/g)].map(
    ([, x1, y1, x2, y2]) => ({ x: Number(x1 ?? x2), y: Number(y1 ?? y2) }),
  );
  const words = [...body.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)"[^>]*>([^<]*)</g)].map(
    ([, x, y, text]) => ({
      x: Number(x),
      y: Number(y),
      text: text ?? '',
    }),
  );
  return { begins, words };
}

describe('a scene', () => {
  it.each([5, 10, 7.5])(
    'is painted at the same places by both painters, at %d px to a millimetre',
    (pxPerMm) => {
      const canvas = onCanvas(pxPerMm);
      const file = inFile();
      expect(canvas.words.map(({ text }) => text)).toEqual(file.words.map(({ text }) => text));
      expect(canvas.words.map(({ text }) => text)).toEqual(
        expect.arrayContaining(['0.2 % offset', 'no readings for 2.0 s', ...MARK_SIGNS]),
      );
      // The ticks of a hatching are clipped lines; each is there in both.
      expect(canvas.begins).toHaveLength(file.begins.length);
      const apart = (a: readonly At[], b: readonly At[]): number =>
        Math.max(
          ...a.map((one, i) =>
            Math.hypot(one.x - (b[i]?.x ?? NaN) * pxPerMm, one.y - (b[i]?.y ?? NaN) * pxPerMm),
          ),
        );
      expect(apart(canvas.words, file.words)).toBeLessThan(1);
      expect(apart(canvas.begins, file.begins)).toBeLessThan(1);
    },
  );

  it('stands at its values: each sign on its reading', () => {
    const markers = shapes.filter((shape) => shape.kind === 'marker');
    expect(markers).toHaveLength(SCENE.marks.length);
    markers.forEach((marker, i) => {
      expect(marker.x).toBeCloseTo(12 + ((SCENE.marks[i]?.x ?? NaN) / 20) * 120, 9);
      expect(marker.y).toBeCloseTo(74 - ((SCENE.marks[i]?.y ?? NaN) / 50) * 70, 9);
    });
    expect(new Set(markers.map(({ form }) => form)).size).toBe(MARK_SIGNS.length - 1);
  });

  it('has the words of a gap beside the curve, not over it, where there is room', () => {
    // A curve that runs through the gap at the height where its words stand first.
    const level = area.atY(47.5);
    const curve = { points: [FRAME.x, level, FRAME.x + FRAME.width, level], lifts: [0] };
    const boxOf = (paths: readonly (typeof curve)[]) => {
      const words = sceneShapes({ ...SCENE, marks: [] }, area, { paths }).above.find(
        (shape) => shape.kind === 'text' && shape.text === 'no readings for 2.0 s',
      );
      if (words?.kind !== 'text') throw new Error('the gap has no words');
      return { top: words.y - words.sizeMm, bottom: words.y };
    };
    const [without, beside] = [boxOf([]), boxOf([curve])];
    expect(without.top).toBeLessThan(level);
    expect(without.bottom).toBeGreaterThan(level);
    expect(beside.top > level || beside.bottom < level).toBe(true);
  });

  it('is what a picture of curves draws over them', () => {
    const x = Float64Array.from([0, 20]);
    const picture = curvePlot({
      widthMm: 160,
      heightMm: 90,
      title: 'T',
      x: { title: 'extension', unit: 'mm', range: { min: 0, max: 20 } },
      y: { title: 'load', unit: 'kN', range: { min: 0, max: 50 } },
      traces: [{ name: 'a', x, y: Float64Array.from([0, 0]), length: 2 }],
      ...SCENE,
    });
    const kinds = (all: readonly Shape[]): string[] =>
      all.flatMap((shape) =>
        shape.kind === 'marker' ? [shape.form] : shape.kind === 'text' ? [shape.text] : [],
      );
    expect(kinds(picture.shapes)).toEqual(expect.arrayContaining(kinds(shapes)));
    const hatching = (all: readonly Shape[]): number =>
      all.filter((shape) => shape.kind === 'line' && shape.stroke.colour === '#6b747b').length;
    expect(hatching(picture.shapes)).toBeGreaterThan(10);
  });
});

describe('what an evaluation found', () => {
  // ISO 6892-1:2019, 13.1: the proof strength lies on a line parallel to the elastic part at the offset's distance.
  it('has each offset line parallel to the elastic line, through its strength, on any axes', () => {
    const found = {
      slope: { footStrain: 0.0003, slopeMpa: 200_000 },
      proofs: [
        { offsetPercent: 0.2, stressMpa: 400 },
        { offsetPercent: 1, stressMpa: 450 },
      ],
    } as unknown as Parameters<typeof offsetLines>[0];
    for (const [xPerStrain, yPerMpa] of [
      [100, 1],
      [50, 0.12],
      [2, 26.98],
    ] as const)
      offsetLines(found, { xPerStrain, yPerMpa }, String).forEach(({ x1, y1, x2, y2, words }, i) => {
        const proof = found.proofs[i];
        if (proof === undefined) throw new Error('a line for each');
        expect(words).toBe(String(proof.offsetPercent));
        const strainAt = 0.0003 + proof.offsetPercent / 100 + proof.stressMpa / 200_000;
        const x = x1 + ((proof.stressMpa * yPerMpa - y1) / (y2 - y1)) * (x2 - x1);
        expect(x).toBeCloseTo(strainAt * xPerStrain, 9);
        expect(y2).toBeGreaterThan(proof.stressMpa * yPerMpa);
      });
  });

  it('is marked once each: a lower yield point that is the upper one has no mark of its own', () => {
    expect(foundMarks({ upperYield: 5, lowerYield: 5, maximumForce: 9 }).map(({ name }) => name)).toEqual([
      'maximum',
      'upper-yield',
    ]);
    expect(foundMarks({})).toEqual([]);
  });
});
