import { describe, expect, it } from 'vitest';
import { curvePlot } from '../../../core/drawing/curve-plot.ts';
import { differencePlot, mostDifferent } from '../../../core/drawing/difference-plot.ts';
import {
  type OverlayPull,
  aligned,
  overlaidCurve,
  overlayDifference,
  overlayPlot,
  wholeRange,
} from '../../../core/drawing/overlay-plot.ts';
import { SI_PLOT_UNITS } from '../../../core/drawing/pull-plot.ts';
import { svgText } from '../../../core/drawing/svg-text.ts';
import { ORIGIN_MARKS } from '../../../core/pull/readings-origin.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

/** Elastic to 300 MPa, then 10 MPa a millimetre: 206 GPa over 50 mm and 100 mm², begun `slackMm` late. */
function pull(pullId: number, slackMm: number, heightMpa = 300): OverlayPull {
  const length = 2_000;
  const timeS = Float64Array.from({ length }, (_, i) => i / 100);
  const extensionMm = Float64Array.from({ length }, (_, i) => i * 0.0005);
  const forceN = extensionMm.map(
    (mm) => 100 * Math.min(heightMpa + 10 * mm, Math.max(0, ((mm - slackMm) / 50) * 206_000)),
  );
  const curve = { length, timeS, extensionMm, forceN };
  const read = readSpecimen({
    id: 'W',
    geometry: { kind: 'flat', width: ['12.5 mm'], thickness: ['8 mm'] },
    extensometerGaugeLength: '50 mm',
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return { pullId, name: `W-${String(pullId)}`, curve, evaluation: evaluate(curve, read.specimen), from: 0 };
}

const drawn = (
  one: OverlayPull,
  form: 'load-extension' | 'stress-strain' | 'load-time' = 'stress-strain',
) => {
  const outcome = overlaidCurve(one, form, SI_PLOT_UNITS);
  if (!outcome.ok) throw new Error(outcome.code);
  return outcome.curve;
};

describe('curves laid over each other', () => {
  it.each([
    // 0.05 mm of slack over 50 mm are 0.1 %.
    ['stress-strain', -0.1],
    ['load-extension', -0.05],
    // 0.0005 mm a hundredth of a second: 1 s.
    ['load-time', -1],
  ] as const)('begin at the zero of the elastic line, as %s', (form, shift) => {
    const curve = drawn(pull(1, 0.05), form);
    expect(aligned(curve, { kind: 'elastic-zero' }).shift).toBeCloseTo(shift, 3);
  });

  it('begin at a load, and say why where it is never reached', () => {
    const curve = drawn(pull(1, 0.05), 'load-extension');
    // 10.3 kN are 103 MPa, and those 0.05 % or 0.025 mm.
    expect(aligned(curve, { kind: 'load', load: 10.3 }).shift).toBeCloseTo(-0.075, 4);
    const never = aligned(curve, { kind: 'load', load: 99 });
    expect(never.shift).toBe(0);
    expect(never.notAligned).toContain('never reaches');
  });

  it('begin where the pull began, not where the record did', () => {
    expect(aligned(drawn({ ...pull(1, 0), from: 400 }, 'load-time'), { kind: 'start' }).shift).toBe(-4);
  });

  it('differ by what they differ by', () => {
    const at = { kind: 'elastic-zero' } as const;
    const outcome = overlayDifference(
      aligned(drawn(pull(1, 0.05, 320)), at),
      aligned(drawn(pull(2, 0.02)), at),
    );
    // 20 MPa higher, and 0.03 mm further along for the slack.
    expect(outcome.ok && (outcome.difference.y.at(-1) ?? 0)).toBeCloseTo(20.3, 3);
  });

  it('differ in a picture of its own, which says what it is of, where they differ most and that no specimen gave one', () => {
    const at = { kind: 'elastic-zero' } as const;
    const first = aligned(drawn(pull(1, 0.05, 320)), at);
    const second = aligned(drawn({ ...pull(2, 0.02), origin: 'simulated' }), at);
    const outcome = overlayDifference(first, second);
    if (!outcome.ok) throw new Error(outcome.reason);
    const input = (onScreen: boolean) =>
      differencePlot({
        widthMm: 260,
        heightMm: 165,
        title: 'W-1 less W-2',
        first,
        second,
        difference: outcome.difference,
        range: wholeRange([first, second]).x,
        decimalSign: '.',
        figure: (value) => value.toFixed(1),
        originMarks: ORIGIN_MARKS,
        onScreen,
      });
    const paper = svgText(curvePlot(input(false)));
    expect(paper).toMatch(/>W-1 less W-2<\/text>[^]*>SIMULATED</);
    expect(paper).toContain('>Δ stress in MPa<');
    const { y } = outcome.difference;
    const most = y.reduce((best, value) => (Math.abs(value) > Math.abs(best) ? value : best), 0);
    expect(paper).toContain(`>${most.toFixed(1)}<`);
    // What it is of stands above it on the screen.
    expect(svgText(curvePlot(input(true)))).not.toContain('>W-1 less W-2</text>');
    expect(mostDifferent([Number.NaN, 1, -3, Number.NaN, 2])).toBe(2);
    expect(mostDifferent([Number.NaN])).toBe(-1);
  });

  it('stand sixty in one picture, with marks and names, and only the chosen one has words and its offset line', () => {
    const curves = Array.from({ length: 60 }, (_, i) =>
      aligned(drawn({ ...pull(i + 1, 0.001 * i), ...(i === 9 ? { origin: 'simulated' as const } : {}) }), {
        kind: 'as-recorded',
      }),
    );
    const input = (onScreen: boolean) =>
      overlayPlot({
        widthMm: 260,
        heightMm: 180,
        title: 'Stress over strain',
        curves,
        penOf: (pullId) => pullId - 1,
        chosen: 7,
        range: wholeRange(curves),
        decimalSign: '.',
        originMarks: ORIGIN_MARKS,
        onScreen,
      });
    expect(input(true).lines).toHaveLength(1);
    const screen = curvePlot(input(true));
    const paths = screen.shapes.filter((shape) => shape.kind === 'path');
    expect(paths).toHaveLength(60);
    // The chosen one lies above the others.
    expect(paths.at(-1)?.stroke.widthMm).toBeGreaterThan(paths[0]?.stroke.widthMm ?? 1);
    expect(
      new Set(paths.map(({ stroke }) => JSON.stringify([stroke.colour, stroke.dashMm]))).size,
    ).toBeGreaterThanOrEqual(6);
    const texts = screen.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
    expect(texts.filter((text) => text.startsWith('offset'))).toHaveLength(1);
    expect(texts).not.toContain('W-60');
    const paper = svgText(curvePlot(input(false)));
    expect(paper).toContain('>W-60<');
    // Beneath its name, and in what is read out of the picture.
    expect(paper.match(/>SIMULATED</g)).toHaveLength(1);
    expect(paper).toContain('W-10 (SIMULATED)');
  });

  it('say that a pull without an area has no stress', () => {
    const one = pull(1, 0);
    const outcome = overlaidCurve({ ...one, evaluation: null }, 'stress-strain', SI_PLOT_UNITS);
    expect(outcome).toMatchObject({ ok: false, code: 'no-strain' });
  });
});
