/** Runs in the page: one curve drawn as its readings come, and the same drawn at once. */
import '../../../renderer/plot/curve-plot.css';
import { PALETTES } from '../../../renderer/design/palette.ts';
import type { CurveInk, ThemeName } from '../../../renderer/design/palette.ts';
import { CURVE_DASH } from '../../../renderer/plot/curve-style.ts';
import type { PlotPicture } from '../../../renderer/plot/picture.ts';
import { PlotView } from '../../../renderer/plot/plot-view.ts';
import { seededNoise } from './seeded-noise.ts';

export interface GrownCurve {
  readonly ink: CurveInk;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
}

export interface Likeness {
  /** Canvases that the picture stands on. */
  readonly panes: number;
  /** Pixels that are not the paper's. */
  readonly inked: number;
  /** CSS pixels by which panes stand apart, lie over each other or leave their place; of the worst. */
  readonly apart: number;
  /** Pixels that are like none of the other picture at their place or beside it, but for an edge that was stroked twice. */
  readonly others: number;
}

const READINGS = 6_000;
const READINGS_A_FRAME = 16;
/** Whole drawings come every third frame. */
const FRAMES_TO_A_DRAWING = 3;
const GAP_BEFORE = 3_501;
/** A reading whose both neighbours are missing. */
const LONE = 4_500;
/** Of 255: where the pieces of a line overlap its edge is a little darker. */
const EDGE_MAX = 90;

/** A curve with noise in both directions, seeded; smooth ones show where each dash lies. */
function columns(noise: number) {
  const random = seededNoise(4_711);
  const x = Float64Array.from({ length: READINGS }, (_, i) => (12 * i) / READINGS + 0.01 * noise * random());
  const y = Float64Array.from(
    { length: READINGS },
    (_, i) => 55 * Math.sin((3 * i) / READINGS) + noise * random(),
  );
  for (const missing of [LONE - 1, LONE + 1]) y[missing] = Number.NaN;
  return { x, y };
}
const NOISY = columns(1);
const SMOOTH = columns(0.02);

function pictureOf(length: number, ink: CurveInk): PlotPicture {
  const isSolid = CURVE_DASH[ink].length === 0;
  const { x, y } = isSolid ? NOISY : SMOOTH;
  return {
    source: {
      of: x,
      length,
      from: 0,
      lifts: length > GAP_BEFORE ? [GAP_BEFORE] : [],
      x: { raw: x, factor: 1, shift: 0 },
      y: { raw: y, factor: 1, shift: 0 },
    },
    ink,
    // Without marks nothing but the curve itself calls for a drawing.
    marks: isSolid
      ? [
          { sign: 'peak', reading: Math.floor(length * 0.9), label: 'peak' },
          { sign: 'now', reading: length - 1, label: '' },
        ]
      : [],
    gaps: [],
    lines: [],
    xRange: { min: -0.5, max: length > READINGS / 2 ? 12.5 : 7 },
    yRange: { min: -5, max: 60 },
    xLabel: 'extension, mm',
    yLabel: 'load, kN',
    tickText: (value, places) => value.toFixed(places),
  };
}

const frame = () => new Promise(requestAnimationFrame);

function placeFor({ width, height }: GrownCurve): HTMLElement {
  const host = document.createElement('div');
  host.className = 'curve-plot-canvas';
  host.style.cssText = `position: relative; width: ${String(width)}px; height: ${String(height)}px`;
  document.body.append(host);
  return host;
}

async function grown(curve: GrownCurve): Promise<HTMLElement> {
  const host = placeFor(curve);
  const view = new PlotView(host, pictureOf(0, curve.ink), PALETTES.chalk);
  view.fit();
  view.draw();
  await frame();
  for (let length = 0, count = 0; length < READINGS; count++) {
    length = Math.min(length + READINGS_A_FRAME, READINGS);
    if (count % FRAMES_TO_A_DRAWING > 0 && length < READINGS) view.lengthen(pictureOf(length, curve.ink));
    else {
      // A hand passes over the plot meanwhile.
      view.setCursor(count < 100 && count % 2 === 0 ? Math.floor(length / 2) : -1);
      view.show(pictureOf(length, curve.ink));
      view.draw();
    }
    if (count % 40 === 0) await frame();
  }
  return host;
}

async function atOnce(curve: GrownCurve, ground: ThemeName = 'chalk'): Promise<HTMLElement> {
  const host = placeFor(curve);
  const view = new PlotView(host, pictureOf(READINGS, curve.ink), PALETTES[ground]);
  view.fit();
  view.draw();
  await frame();
  return host;
}

/** Drawn on one ground, then on another, as when somebody chooses it. */
async function onAnotherGround(curve: GrownCurve): Promise<HTMLElement> {
  const host = placeFor(curve);
  const view = new PlotView(host, pictureOf(READINGS, curve.ink), PALETTES.chalk);
  view.fit();
  view.draw();
  await frame();
  view.setPalette(PALETTES.soot);
  view.forgetDrawn();
  view.draw();
  await frame();
  return host;
}

function apartOf(host: HTMLElement): number {
  const place = host.getBoundingClientRect();
  const boxes = [...host.querySelectorAll('canvas')].map((canvas) => canvas.getBoundingClientRect());
  const edges = [place.left, ...boxes.flatMap(({ left, right }) => [left, right]), place.right];
  return Math.max(
    ...boxes.flatMap(({ top, bottom }) => [Math.abs(top - place.top), Math.abs(bottom - place.bottom)]),
    ...edges.flatMap((edge, i) => (i % 2 === 0 ? [Math.abs((edges[i + 1] ?? NaN) - edge)] : [])),
  );
}

const pixelsOf = (host: HTMLElement): ImageData[] =>
  [...host.querySelectorAll('canvas')].flatMap(
    (canvas) => canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height) ?? [],
  );

/** A corner between two pieces is round, one within a piece is flat: the outline may be a pixel further out. */
function isNear(one: ImageData, other: ImageData, x: number, y: number): boolean {
  const at = (image: ImageData, column: number, row: number, channel: number): number =>
    image.data[4 * (row * image.width + column) + channel] ?? 0;
  const isLike = (column: number, row: number): boolean =>
    [0, 1, 2, 3].every((c) => Math.abs(at(one, x, y, c) - at(other, column, row, c)) <= EDGE_MAX);
  if (isLike(x, y)) return true;
  for (let row = Math.max(y - 1, 0); row <= Math.min(y + 1, one.height - 1); row++)
    for (let column = Math.max(x - 1, 0); column <= Math.min(x + 1, one.width - 1); column++)
      if (isLike(column, row)) return true;
  return false;
}

async function likeness(curve: GrownCurve): Promise<Likeness> {
  document.body.replaceChildren();
  const host = await grown(curve);
  return { apart: apartOf(host), ...compared(pixelsOf(host), pixelsOf(await atOnce(curve))) };
}

async function likenessOnGround(curve: GrownCurve): Promise<Likeness> {
  document.body.replaceChildren();
  const host = await onAnotherGround(curve);
  return { apart: apartOf(host), ...compared(pixelsOf(host), pixelsOf(await atOnce(curve, 'soot'))) };
}

function compared(one: readonly ImageData[], other: readonly ImageData[]): Omit<Likeness, 'apart'> {
  let [others, inked] = [0, 0];
  one.forEach((pane, k) => {
    const beside = other[k];
    if (beside?.width !== pane.width || beside.height !== pane.height)
      throw new Error('the two pictures stand on other panes');
    for (let y = 0; y < pane.height; y++)
      for (let x = 0; x < pane.width; x++) {
        const at = 4 * (y * pane.width + x);
        if ((pane.data[at] ?? 0) < 128 && (pane.data[at + 3] ?? 0) > 128) inked++;
        if (!isNear(pane, beside, x, y) || !isNear(beside, pane, x, y)) others++;
      }
  });
  return { panes: one.length, inked, others };
}

Object.assign(globalThis, { likeness, likenessOnGround });
