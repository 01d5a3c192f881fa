import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCurveCsv } from '../../../core/curve/read-csv.ts';
import { curvePlot } from '../../../core/drawing/curve-plot.ts';
import { type PullPlot, SI_PLOT_UNITS, US_PLOT_UNITS, pullPlot } from '../../../core/drawing/pull-plot.ts';
import { individualsPlot, scatterPlot } from '../../../core/drawing/scatter-plot.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { individualsChart } from '../../../core/statistics/individuals-chart.ts';

const read = readCurveCsv(
  readFileSync(new URL('../../../fixtures/curves/42crmos4-46NT71.csv', import.meta.url)),
);
if (!read.ok) throw new Error(read.fault.sentence);
const { curve } = read;
const specimen = readSpecimen({
  id: '46NT71',
  geometry: { kind: 'round', diameter: '5.003 mm' },
  gaugeLength: '25 mm',
});
if (!specimen.ok) throw new Error('the specimen is sound');
const evaluation = evaluate(curve, specimen.specimen, {});
const request = { name: '46NT71', curve, evaluation };

function plotted(change: Partial<Parameters<typeof pullPlot>[0]>) {
  const outcome = pullPlot({ ...request, form: 'stress-strain', ...change });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.plot;
}

function without<T extends object, K extends keyof T>(whole: T, key: K): Omit<T, K> {
  const rest: T = { ...whole };
  Reflect.deleteProperty(rest, key);
  return rest;
}

/** How far the first offset line passes from the mark of its proof strength, upwards. */
function besideProof(lines: PullPlot['lines'], marks: PullPlot['marks']): number {
  const [line] = lines ?? [];
  const proof = marks?.find((mark) => mark.words.startsWith('Rp0.2'));
  if (line === undefined || proof === undefined) throw new Error('line and mark are there');
  return line.y1 + ((line.y2 - line.y1) / (line.x2 - line.x1)) * (proof.x - line.x1) - proof.y;
}

describe('the picture of a pull', () => {
  it('as stress over strain has the offset line cross the curve where the proof strength is', () => {
    const { lines, marks, traces } = plotted({});
    expect(Math.abs(besideProof(lines, marks))).toBeLessThan(15);
    // Published by the data set: Rm 1198.73 MPa (fixtures/curves/README.md).
    expect(Math.max(...Array.from(traces[0]?.y ?? []))).toBeCloseTo(1198.73, 1);
    expect(marks?.map((mark) => mark.words.split(' ')[0])).toEqual(expect.arrayContaining(['Rp0.2', 'Rm']));
  });

  it('as load over extension is in the units asked for', () => {
    const si = plotted({ form: 'load-extension' });
    const us = plotted({ form: 'load-extension', units: US_PLOT_UNITS });
    expect([si.x.unit, si.y.unit, us.x.unit, us.y.unit]).toEqual(['mm', 'kN', 'in', 'lbf']);
    expect((us.traces[0]?.y[100] ?? 0) / (si.traces[0]?.y[100] ?? 1)).toBeCloseTo(224.809, 3);
  });

  it.each([
    ['SI', SI_PLOT_UNITS],
    ['US', US_PLOT_UNITS],
  ] as const)('as load over extension has it there too, in %s units', (_, units) => {
    const { lines, marks, y } = plotted({ form: 'load-extension', units });
    // 15 MPa on the section of 5.003 mm across.
    const tolerance = y.unit === 'kN' ? 0.3 : 67.4;
    expect(Math.abs(besideProof(lines, marks))).toBeLessThan(tolerance);
  });

  it('has no offset line over time, nor over another length than the strain is of', () => {
    expect(plotted({ form: 'load-time' }).lines).toEqual([]);
    expect(plotted({ form: 'load-extension', curve: without(curve, 'extensionMm') }).lines).toEqual([]);
  });

  it('says of crosshead travel that it is travel', () => {
    const travelOnly = without(curve, 'extensionMm');
    expect(plotted({ form: 'load-extension', curve: travelOnly }).x.title).toBe('crosshead travel');
  });

  it('hands back a reason where the curve can’t give it', () => {
    const timeless = without(curve, 'timeS');
    expect(pullPlot({ ...request, curve: timeless, form: 'load-time' })).toMatchObject({ ok: false });
    const strainless = without(evaluation, 'strain');
    expect(pullPlot({ ...request, evaluation: strainless, form: 'stress-strain' })).toMatchObject({
      ok: false,
    });
  });
});

describe('results as points', () => {
  const size = { widthMm: 160, heightMm: 90, title: 'strength' } as const;
  const y = { title: 'Rm', unit: 'MPa' };

  it('draws a marker for each, a form of its own for each group', () => {
    const drawing = curvePlot(
      scatterPlot({ ...size, x: { title: 'heat', unit: '' }, y }, [
        { name: 'A', x: [1, 2, 3], y: [500, 510, 505] },
        { name: 'B', x: [1, 2], y: [520, 498] },
      ]),
    );
    const markers = drawing.shapes.filter((shape) => shape.kind === 'marker');
    // One more of each stands in the legend.
    expect(markers.filter((m) => m.form === 'circle')).toHaveLength(4);
    expect(markers.filter((m) => m.form === 'square')).toHaveLength(3);
    expect(drawing.shapes.some((shape) => shape.kind === 'path')).toBe(false);
  });

  it('draws the chart of individual values with its lines, and names what lies outside', () => {
    const values = [...Array.from({ length: 20 }, (_, i) => 500 + (i % 3)), 450];
    const outcome = individualsChart(values);
    if (outcome.kind !== 'chart') throw new Error(outcome.reason);
    const drawing = curvePlot(
      individualsPlot(
        { ...size, y },
        { name: 'Rm', values, chart: outcome.chart, minima: [{ value: 480, words: 'minimum' }] },
      ),
    );
    const texts = drawing.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
    expect(texts).toEqual(
      expect.arrayContaining([
        'mean',
        'mean + 3 sigma from moving ranges',
        'mean − 3 sigma from moving ranges',
        'minimum',
        'no. 21',
      ]),
    );
  });
});
