import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curvePlot } from '../../../core/drawing/curve-plot.ts';
import type { Drawing, Shape } from '../../../core/drawing/drawing.ts';
import { OVERLAY_CURVES_MAX } from '../../../core/drawing/overlay-plot.ts';
import { penOf } from '../../../core/drawing/pens.ts';
import type { CurvePlotInput } from '../../../core/drawing/plot-input.ts';
import { svgText } from '../../../core/drawing/svg-text.ts';

const ofKind = <K extends Shape['kind']>(drawing: Drawing, kind: K): Extract<Shape, { kind: K }>[] =>
  drawing.shapes.filter((shape): shape is Extract<Shape, { kind: K }> => shape.kind === kind);

const trace = (points: readonly (readonly [number, number])[], name = 'W-1', gaps: number[] = []) => ({
  name,
  length: points.length,
  x: points.map(([x]) => x),
  y: points.map(([, y]) => y),
  gaps,
});

const RISE = trace([
  [0, 0],
  [1, 10],
  [2, 18],
  [1.8, 19],
  [3, 20],
  [3.2, 4],
]);
const plotOf = (more: Partial<CurvePlotInput> = {}): Drawing =>
  curvePlot({
    widthMm: 160,
    heightMm: 100,
    title: 'Load over extension',
    x: { title: 'extension', unit: 'mm' },
    y: { title: 'load', unit: 'kN' },
    traces: [RISE],
    ...more,
  });

describe('a picture of curves', () => {
  it('has scales that end on whole steps and keep zero in the picture', () => {
    const texts = ofKind(plotOf(), 'text').map((t) => t.text);
    expect(texts).toEqual(expect.arrayContaining(['0', '20', '0.0', '3.5', 'extension in mm', 'load in kN']));
    expect(ofKind(plotOf({ decimalSign: ',' }), 'text').map((t) => t.text)).toContain('3,5');
  });

  it('has blanks between thousands from five digits on, and reads "in inches"', () => {
    const texts = ofKind(
      plotOf({
        x: { title: 'extension', unit: 'in', range: { min: -0.00004, max: 0.00004 } },
        y: { title: 'force', unit: 'lbf', range: { min: -15_000, max: 15_000 } },
      }),
      'text',
    ).map((t) => t.text);
    expect(texts).toEqual(
      expect.arrayContaining(['15 000', '5000', '−15 000', 'extension in inches', '0.00004']),
    );
  });

  it('draws a curve in the order of time, backward branches too', () => {
    const [path] = ofKind(plotOf(), 'path');
    const xs = (path?.points ?? []).filter((_, i) => i % 2 === 0);
    expect(xs).toHaveLength(6);
    expect((xs[3] ?? 0) < (xs[2] ?? 0)).toBe(true);
  });

  it('lifts the pen at a gap and bridges it with a dotted line', () => {
    const drawing = plotOf({
      traces: [
        trace(
          [
            [0, 0],
            [1, 10],
            [2, 18],
            [3, 20],
          ],
          'W-1',
          [2],
        ),
      ],
    });
    expect(ofKind(drawing, 'path')[0]?.lifts).toEqual([0, 2]);
    expect(ofKind(drawing, 'line').some((line) => line.stroke.dashMm?.[0] === 0.4)).toBe(true);
  });

  it('tells its curves apart by dash and marker as well, each named in a legend', () => {
    const traces = Array.from({ length: 12 }, (_, i) => ({ ...RISE, name: `W-${String(i)}` }));
    const drawing = plotOf({ traces, heightMm: 140 });
    const texts = ofKind(drawing, 'text');
    for (const { name } of traces) expect(texts.map((t) => t.text)).toContain(name);
    expect(Math.max(...texts.map((t) => t.y))).toBeLessThan(140);
  });

  it('has as many pens as curves are laid over each other, no two alike in a grey print', () => {
    const looks = Array.from({ length: OVERLAY_CURVES_MAX }, (_, i) => {
      const { stroke, marker, markerFill } = penOf(i);
      return [String(stroke.dashMm), stroke.widthMm, marker, markerFill].join(' ');
    });
    expect(new Set(looks).size).toBe(120);
  });

  it('fills the markers of the later pens, which without it were those of the first', () => {
    const traces = Array.from({ length: 40 }, (_, i) => ({ ...RISE, name: `W-${String(i)}` }));
    const fills = ofKind(plotOf({ traces, heightMm: 200 }), 'marker').map(({ fill }) => fill);
    expect(fills).toContain(penOf(39).stroke.colour);
    expect(fills).toContain('#ffffff');
  });

  it('a single curve needs neither legend nor markers', () => {
    expect(ofKind(plotOf(), 'marker')).toEqual([]);
  });

  it('draws offset line and marks, the words of near marks beside each other', () => {
    const drawing = plotOf({
      lines: [{ x1: 0.2, y1: 0, x2: 2.2, y2: 20, words: 'offset 0.2 %' }],
      marks: [
        { x: 2, y: 18, words: 'Rp0.2' },
        { x: 2.01, y: 18.1, words: 'ReH' },
        { x: 3, y: 20, words: 'Rm' },
        { x: 30, y: 20, words: 'beyond' },
      ],
    });
    const labels = ofKind(drawing, 'text').filter((t) =>
      ['Rp0.2', 'ReH', 'Rm', 'offset 0.2 %'].includes(t.text),
    );
    expect(labels).toHaveLength(4);
    for (const a of labels)
      for (const b of labels) if (a !== b) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(2.5);
    expect(ofKind(drawing, 'marker').filter((m) => m.form === 'plus')).toHaveLength(4);
  });

  it('leaves out of a fixed range what lies outside, but says it', () => {
    const drawing = plotOf({
      x: { title: 'extension', unit: 'mm', range: { min: 0, max: 2 } },
      marks: [{ x: 3, y: 20, words: 'Rm 20 kN' }],
    });
    expect(ofKind(drawing, 'text').some((t) => t.text === 'Rm 20 kN')).toBe(false);
    expect(drawing.description).toContain('Rm 20 kN');
  });

  it('thins a long curve, keeps its extremes, and says so', () => {
    const length = 200_000;
    const x = Float64Array.from({ length }, (_, i) => i / length);
    const y = Float64Array.from({ length }, (_, i) => (i === 77_777 ? 50 : 10 + Math.sin(i)));
    const drawing = plotOf({ traces: [{ name: 'long', length, x, y }] });
    const points = ofKind(drawing, 'path')[0]?.points ?? [];
    expect(points.length / 2).toBeLessThan(7_000);
    const top = Math.min(...points.filter((_, i) => i % 2 === 1));
    const frame = ofKind(drawing, 'box')[0]?.box;
    expect(top).toBeCloseTo(frame?.y ?? 0, 6);
    expect(drawing.description).toMatch(/of 200000 readings/);
  });

  it('of values that are all missing, or of none, is an empty frame', () => {
    expect(ofKind(plotOf({ traces: [] }), 'path')).toEqual([]);
    const empty = plotOf({
      traces: [
        trace([
          [Number.NaN, 1],
          [1, Number.NaN],
        ]),
      ],
    });
    expect(ofKind(empty, 'path')[0]?.points).toEqual([]);
    expect(svgText(empty)).toContain('</svg>');
  });

  it('is refused where nobody could read it', () => {
    expect(() => plotOf({ widthMm: 20 })).toThrow(/too small/);
    expect(() => plotOf({ traces: Array.from({ length: 201 }, () => RISE) })).toThrow(/at most 200/);
  });

  it('draws nothing outside its paper, whatever the values', () => {
    const finite = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(finite, finite), { minLength: 1, maxLength: 60 }), (points) => {
        const drawing = plotOf({
          traces: [trace(points)],
          marks: points.slice(0, 4).map(([x, y]) => ({ x, y, words: 'mark of it' })),
        });
        for (const shape of drawing.shapes) {
          const places =
            shape.kind === 'path'
              ? shape.points
              : shape.kind === 'line'
                ? [shape.x1, shape.y1, shape.x2, shape.y2]
                : shape.kind === 'box'
                  ? [shape.box.x, shape.box.y]
                  : [shape.x, shape.y];
          places.forEach((place, i) => {
            expect(place).toBeGreaterThanOrEqual(0);
            expect(place).toBeLessThanOrEqual(i % 2 === 0 ? 160 : 100);
          });
        }
        expect(svgText(drawing)).not.toMatch(/NaN|Infinity/);
      }),
      { numRuns: 100 },
    );
  });
});

/** Any code units, halves of letters and control signs among them. */
const anyText = fc
  .array(fc.oneof(fc.integer({ min: 0, max: 0xffff }), fc.constantFrom(0x26, 0x3c, 0x3e, 0x22, 0x27)), {
    maxLength: 30,
  })
  .map((units) => String.fromCharCode(...units));

describe('the picture as SVG', () => {
  it('is one file in millimetres, with words for who can’t see it', () => {
    const svg = svgText(plotOf());
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" role="img" width="160mm" height="100mm" viewBox="0 0 160 100"/,
    );
    expect(svg).toContain('<title>Load over extension</title>');
    expect(svg).toMatch(/<desc>load in kN over extension in mm, 1 curve: W-1\./);
    expect(svg).not.toMatch(/href|url\((?!#)|<image|<script/);
  });

  it('stays well formed whatever a specimen is called', () => {
    fc.assert(
      fc.property(anyText, (name) => {
        const svg = svgText(plotOf({ traces: [{ ...RISE, name }, RISE], title: name }));
        // Outside of tags no bare sign of markup is left, and no control sign that XML doesn't know.
        const outside = svg.replace(/<\/?[a-zA-Z][^<>]*>/g, '');
        expect(outside).not.toMatch(/[<>]|&(?!amp;|lt;|gt;|quot;)/);
        // eslint-disable-next-line no-control-regex -- control signs are what must not be there.
        expect(svg).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/);
      }),
      { numRuns: 60 },
    );
  });
});
