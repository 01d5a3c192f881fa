/** Runs in the page: one long pull on the plot of the overlay, zoomed and moved, drawn as that plot draws. */
import type { Curve } from '../../../core/curve/curve.ts';
import { curvePlot, plotLayout } from '../../../core/drawing/curve-plot.ts';
import {
  type AlignedCurve,
  aligned,
  overlaidCurve,
  overlayPlot,
  wholeRange,
} from '../../../core/drawing/overlay-plot.ts';
import type { PlotRange } from '../../../core/drawing/plot-input.ts';
import { SI_PLOT_UNITS } from '../../../core/drawing/pull-plot.ts';
import { ORIGIN_MARKS } from '../../../core/pull/readings-origin.ts';
import { PALETTES } from '../../../renderer/design/palette.ts';
import { moved, zoomed } from '../../../renderer/plot/zoom.ts';
import { paintDrawing } from '../../../renderer/plot/paint-drawing.ts';
import { seededNoise } from '../../app/support/seeded-noise.ts';

export interface ZoomTimes {
  /** One pass for least and largest of both columns. */
  readonly minMaxMs: number[];
  /** The whole pull drawn. */
  readonly wholeMs: number[];
  readonly zoomMs: number[];
  readonly panMs: number[];
  /** Most corner points of any drawing. */
  readonly corners: number;
}

const WIDTH_PX = 900;
const HEIGHT_PX = 560;
const PX_PER_MM = 5;
const ZOOM = 1.25;
const PAN_PART = 0.06;

/** As in redraw-page.ts: a straight beginning, a knee and a flat end; noise in both directions, seeded. */
function curve(readings: number): Curve {
  const random = seededNoise(20_251);
  const [timeS, forceN, extensionMm] = [0, 1, 2].map(() => new Float64Array(readings)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let i = 0; i < readings; i++) {
    const way = i / readings;
    timeS[i] = i / 1000;
    extensionMm[i] = 12 * way + 0.004 * random();
    forceN[i] = 58_000 * (1 - (1 - way) ** 6) + 60 * random();
  }
  return { length: readings, timeS, forceN, extensionMm };
}

function laid(readings: number): AlignedCurve {
  const outcome = overlaidCurve(
    { pullId: 1, name: 'T-1', curve: curve(readings), evaluation: null, from: 0 },
    'load-extension',
    SI_PLOT_UNITS,
  );
  if (!outcome.ok) throw new Error(outcome.reason);
  return aligned(outcome.curve, { kind: 'start' });
}

async function measureZoom(readings: number, rounds: number): Promise<ZoomTimes> {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [WIDTH_PX, HEIGHT_PX];
  document.body.replaceChildren(canvas);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('the page has no canvas');
  const one = laid(readings);
  const whole = wholeRange([one]);
  const times = { minMaxMs: [], wholeMs: [], zoomMs: [], panMs: [] } as Record<
    'minMaxMs' | 'wholeMs' | 'zoomMs' | 'panMs',
    number[]
  >;
  let corners = 0;
  const draw = async (range: PlotRange, into: number[] | null): Promise<void> => {
    await new Promise((resolve) => requestAnimationFrame(resolve));
    const begun = performance.now();
    const input = overlayPlot({
      widthMm: WIDTH_PX / PX_PER_MM,
      heightMm: HEIGHT_PX / PX_PER_MM,
      title: '',
      curves: [one],
      originMarks: ORIGIN_MARKS,
      penOf: () => 0,
      chosen: 1,
      range,
      decimalSign: '.',
      onScreen: true,
    });
    const layout = plotLayout(input);
    const [trace] = input.traces;
    // For the cursor and the keys, as in the overlay itself.
    if (trace !== undefined) corners = Math.max(corners, layout.area.thinned(trace).length);
    paintDrawing(context, curvePlot(input, layout), { pxPerMm: PX_PER_MM, palette: PALETTES.chalk });
    // Drawn when somebody asks for the pixels; without that only the wish to draw would be measured.
    context.getImageData(0, 0, 1, 1);
    into?.push(performance.now() - begun);
  };
  const { x, y } = one.index.source;
  for (let warm = 0; warm < 2; warm++) await draw(whole, null);
  for (let round = 0; round < rounds; round++) {
    const passes = Math.ceil(3_000_000 / readings);
    const begun = performance.now();
    let seen = 0;
    for (let pass = 0; pass < passes; pass++) {
      let [low, high] = [Infinity, -Infinity];
      for (let i = 0; i < readings; i++) {
        const value = (x[i] as number) + (y[i] as number);
        if (value < low) low = value;
        if (value > high) high = value;
      }
      seen += high - low;
    }
    times.minMaxMs.push((performance.now() - begun) / passes);
    if (seen === 0) throw new Error('nothing was seen');
    await draw(whole, times.wholeMs);
    // In to a thousandth of the whole and out again, at another place each time.
    const at = { x: 0.1 + (0.8 * round) / rounds, y: 0.5 };
    let range = whole;
    for (let step = 0; step < 30; step++) {
      range = zoomed(range, whole, ZOOM, step < 6 ? at : { x: 0.5, y: 0.5 });
      // Follows the curve, as a person does.
      range = onCurve(range, one);
      await draw(range, times.zoomMs);
      if (step % 5 !== 4) continue;
      for (let pan = 0; pan < 4; pan++)
        await draw(moved(range, whole, (pan % 2 === 0 ? 1 : -1) * PAN_PART, 0), times.panMs);
    }
  }
  return { ...times, corners };
}

/** The range with the curve in its middle. */
function onCurve(range: PlotRange, { index, length }: AlignedCurve): PlotRange {
  const { x, y } = index.source;
  const middle = (range.x.min + range.x.max) / 2;
  let [from, to] = [0, length - 1];
  while (to - from > 1) {
    const half = (from + to) >> 1;
    if ((x[half] as number) < middle) from = half;
    else to = half;
  }
  const half = (range.y.max - range.y.min) / 2;
  const at = y[from] as number;
  return { x: range.x, y: { min: at - half, max: at + half } };
}

Object.assign(globalThis, { measureZoom });
