/** Runs in the page: the program's own plot, on a canvas of a usual size, with as many readings as asked for. */
import { PALETTES } from '../../../renderer/design/palette.ts';
import type { PlotPicture } from '../../../renderer/plot/picture.ts';
import { PlotView } from '../../../renderer/plot/plot-view.ts';
import { shownValue } from '../../../renderer/plot/trace.ts';
import { seededNoise } from '../../app/support/seeded-noise.ts';

export interface RedrawTimes {
  /** One pass for least and largest of both columns. */
  readonly minMaxMs: number[];
  /** Everything thinned anew, as after the axes have changed. */
  readonly redrawMs: number[];
  /** As while readings come: sixteen more than at the drawing before. */
  readonly followMs: number[];
  /** Every reading as a point of the line. */
  readonly allMs: number[];
  /** One pixel on a canvas that was shown: what any drawing on it pays. */
  readonly touchMs: number[];
  readonly corners: number;
}

interface Columns {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** A curve with a straight beginning, a knee and a flat end; noise in both directions, seeded. */
function curve(readings: number): Columns {
  const random = seededNoise(20_251);
  const x = new Float64Array(readings);
  const y = new Float64Array(readings);
  for (let i = 0; i < readings; i++) {
    const way = i / readings;
    x[i] = 12 * way + 0.004 * random();
    y[i] = 58_000 * (1 - (1 - way) ** 6) + 60 * random();
  }
  return { x, y };
}

function pictureOf({ x, y }: Columns, length: number, xMax: number): PlotPicture {
  return {
    source: {
      length,
      from: 0,
      lifts: [],
      x: { raw: x, factor: 1, shift: 0 },
      y: { raw: y, factor: 0.001, shift: 0 },
    },
    ink: 'blue',
    marks: [
      { sign: 'peak', reading: Math.floor(length * 0.9), label: 'largest load' },
      { sign: 'now', reading: length - 1, label: '' },
    ],
    gaps: [],
    lines: [],
    xRange: { min: -0.5, max: xMax },
    yRange: { min: -2.4, max: 60 },
    xLabel: 'Extension, mm',
    yLabel: 'Load, kN',
    tickText: (value, places) => value.toFixed(places),
  };
}

/** The canvas is drawn when somebody asks for its pixels; without that only the wish to draw would be measured. */
function flush(canvas: HTMLCanvasElement): void {
  canvas.getContext('2d')?.getImageData(0, 0, 1, 1);
}

const timed = (work: () => void): number => {
  const from = performance.now();
  work();
  return performance.now() - from;
};

function minMax({ x, y }: Columns): number {
  let lowX = Infinity;
  let highX = -Infinity;
  let lowY = Infinity;
  let highY = -Infinity;
  for (let i = 0; i < x.length; i++) {
    const valueX = x[i] as number;
    const valueY = y[i] as number;
    if (valueX < lowX) lowX = valueX;
    if (valueX > highX) highX = valueX;
    if (valueY < lowY) lowY = valueY;
    if (valueY > highY) highY = valueY;
  }
  return highX - lowX + highY - lowY;
}

/** In pieces, as the program strokes its own corners: in one path it would take many times as long. */
function drawAll(canvas: HTMLCanvasElement, { source }: PlotPicture): void {
  const context = canvas.getContext('2d');
  if (context === null) return;
  const { width, height } = canvas;
  context.clearRect(0, 0, width, height);
  context.strokeStyle = PALETTES.chalk.blue;
  context.lineWidth = 2.5;
  context.lineJoin = 'bevel';
  context.beginPath();
  for (let i = 0; i < source.length; i++) {
    const atX = (shownValue(source.x, i) / 12.5) * width;
    const atY = height - (shownValue(source.y, i) / 60) * height;
    if (i === 0) context.moveTo(atX, atY);
    else context.lineTo(atX, atY);
    if (i % 128 !== 127) continue;
    context.stroke();
    context.beginPath();
    context.moveTo(atX, atY);
  }
  context.stroke();
}

async function measure(readings: number, rounds: number): Promise<RedrawTimes> {
  document.body.replaceChildren();
  const host = document.createElement('div');
  host.style.cssText = 'width: 900px; height: 560px';
  const other = document.createElement('canvas');
  const touched = document.createElement('canvas');
  for (const canvas of [other, touched]) [canvas.width, canvas.height] = [900, 560];
  document.body.append(host, other, touched);
  const columns = curve(readings);
  const view = new PlotView(host, pictureOf(columns, readings, 12.5), PALETTES.chalk);
  view.fit();
  await new Promise((resolve) => requestAnimationFrame(resolve));
  const times = { minMaxMs: [], redrawMs: [], followMs: [], allMs: [], touchMs: [] } as Record<
    'minMaxMs' | 'redrawMs' | 'followMs' | 'allMs' | 'touchMs',
    number[]
  >;
  let corners = 0;
  let seen = 0;
  const WARM_UP = 3;
  for (let round = 0; round < rounds + WARM_UP; round++) {
    const redraw = (length: number, xMax: number) => async (): Promise<number> => {
      view.show(pictureOf(columns, length, xMax));
      const begun = performance.now();
      const drawn = new Promise((resolve) => host.addEventListener('curve-drawn', resolve, { once: true }));
      view.draw();
      // uPlot draws in a microtask when a scale has changed.
      await drawn;
      for (const canvas of host.querySelectorAll('canvas')) flush(canvas);
      return performance.now() - begun;
    };
    // The first stroke on a canvas after a frame was shown costs something of its own, whatever is drawn: told apart.
    const touchMs = timed(() => {
      touched.getContext('2d')?.fillRect(round, 0, 1, 1);
      flush(touched);
    });
    // Another range every time: the whole curve has to be thinned anew.
    const redrawMs = await redraw(readings - 16, 12.5 + 0.01 * (round + 1))();
    const followMs = await redraw(readings, 12.5 + 0.01 * (round + 1))();
    corners = view.cornerCount;
    // Several passes, so that the page's coarse clock can see them; the floor is the quickest way that there is.
    const passes = Math.ceil(3_000_000 / readings);
    const minMaxMs =
      timed(() => {
        for (let pass = 0; pass < passes; pass++) seen += minMax(columns);
      }) / passes;
    const allMs = timed(() => {
      drawAll(other, pictureOf(columns, readings, 12.5));
      flush(other);
    });
    if (round < WARM_UP) continue;
    times.redrawMs.push(redrawMs);
    times.followMs.push(followMs);
    times.minMaxMs.push(minMaxMs);
    times.allMs.push(allMs);
    times.touchMs.push(touchMs);
    await new Promise((resolve) => requestAnimationFrame(resolve));
  }
  view.destroy();
  if (seen === 0) throw new Error('nothing was seen');
  return { ...times, corners };
}

Object.assign(globalThis, { measure });
