/**
 * A plot on a canvas: uPlot in its mode of x/y pairs keeps axes, pixels and clipping; the curve's path is our own,
 * since a load–extension curve runs backwards at times and must never be sorted.
 */
import uPlot from 'uplot';
import type { Palette } from '../design/palette.ts';
import { CURVE_DASH, CURVE_WIDTH_PX } from './curve-style.ts';
import { PLOT_FONT, paintShapes } from './paint-drawing.ts';
import type { PlotPicture } from './picture.ts';
import type { PixelMap, ThinnedTrace } from '../../core/curve/thinning.ts';
import { MAIN_LINES_MM, tickPlaces, tickStep, ticks } from '../../core/drawing/axis-ticks.ts';
import { PlotArea } from '../../core/drawing/plot-area.ts';
import { sceneShapes } from '../../core/drawing/scene-shapes.ts';
import { CSS_PX_PER_MM } from './drawing-scale.ts';
import { curveToAvoid } from './curve-to-avoid.ts';
import { walkedTo } from './plot-keys.ts';
import { type Corners, strokeTrace } from './stroke-trace.ts';
import { PartOfTrace, Trace, nearestCorner, shownValue } from './trace.ts';
import 'uplot/dist/uPlot.min.css';

/** Fine lines to a main one: chart paper, not a table. */
const FINE_LINES = 5;
const AXIS_FONT_PX = 14;
/** A plot that is lower, in the smallest window, has the name of its lower axis in the line of that axis' figures. */
const LOW_PX = 240;
const AXIS_GAP_PX = 5;
/** Part of the axis that its name may take there; above it the unit stands alone, or too few figures would be left to read by. */
const NAME_PART_MAX = 0.45;

const textScale = (): number => parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;

/** Detail of the event `curve-drawn`. */
export interface CurveDrawn {
  /** Last reading that the drawing reaches to; -1 where it is empty. */
  readonly reading: number;
  readonly corners: number;
  /** False where the curve was only made longer. */
  readonly isWhole: boolean;
}

export class PlotView {
  readonly #host: HTMLElement;
  #plot: uPlot;
  /** Size of the page's text over 16 px: a large window has larger print on its axes too. */
  #textScale = textScale();
  #isLow = false;
  readonly #trace = new Trace();
  readonly #part = new PartOfTrace();
  #picture: PlotPicture;
  #palette: Palette;
  #thinned: ThinnedTrace | null = null;
  /** Corner points that stay where they are drawn; those behind them are of a run that is still open. */
  #settledCorners = 0;
  /** Reading under the cursor; -1 for none. */
  #cursorReading = -1;

  constructor(host: HTMLElement, picture: PlotPicture, palette: Palette) {
    this.#host = host;
    this.#picture = picture;
    this.#palette = palette;
    this.#plot = this.#make();
  }

  /** Shows another picture from the next draw on. */
  show(picture: PlotPicture): void {
    this.#picture = picture;
  }

  setPalette(palette: Palette): void {
    this.#palette = palette;
  }

  /** Stands the cursor on a reading; -1 takes it away. */
  setCursor(reading: number): void {
    this.#cursorReading = reading;
  }

  /** Fits the canvas to its place. False where there is no room yet. */
  fit(): boolean {
    const width = Math.floor(this.#host.clientWidth);
    const height = Math.floor(this.#host.clientHeight);
    if (width < 40 || height < 40) return false;
    const scaleNow = textScale();
    const isLow = height < LOW_PX * scaleNow;
    if (scaleNow !== this.#textScale || isLow !== this.#isLow) {
      // uPlot takes the faces of its axes, and the room beside them, once and for all.
      this.#textScale = scaleNow;
      this.#isLow = isLow;
      this.#plot.destroy();
      this.#plot = this.#make();
      return true;
    }
    if (width !== this.#plot.width || height !== this.#plot.height) this.#plot.setSize({ width, height });
    return true;
  }

  draw(): void {
    const { xRange, yRange } = this.#picture;
    const { x, y } = this.#plot.scales;
    const grown =
      x?.min !== xRange.min || x.max !== xRange.max || y?.min !== yRange.min || y.max !== yRange.max;
    this.#plot.batch(() => {
      if (grown) {
        this.#plot.setScale('x', { min: xRange.min, max: xRange.max });
        this.#plot.setScale('y', { min: yRange.min, max: yRange.max });
      } else this.#plot.redraw(true, true);
    });
  }

  /**
   * Draws what came since the last drawing onto it. Axes, marks and the pixels that overlap wait for the next whole
   * drawing; so does everything where the scale has changed.
   */
  lengthen(picture: PlotPicture): void {
    const drawn = this.#thinned;
    if (
      drawn === null ||
      picture.isPart === true ||
      !isSameScale(picture, this.#picture) ||
      picture.ink !== this.#picture.ink
    )
      return;
    this.#picture = picture;
    const thinned = this.#trace.follow(picture.source, this.#map());
    if (thinned !== drawn) return;
    const from = Math.max(this.#settledCorners - 1, 0);
    this.#stroke({
      x: thinned.x.subarray(from),
      y: thinned.y.subarray(from),
      lifts: thinned.lifts.subarray(from),
      length: thinned.length - from,
    });
    this.#settledCorners = thinned.settledLength;
    this.#tellDrawn(false);
  }

  /** Reading nearest to a place given in CSS pixels from the host's corner; -1 where nothing is drawn. */
  readingAt(cssX: number, cssY: number): number {
    const thinned = this.#thinned;
    if (thinned === null) return -1;
    const ratio = this.#ratio();
    const corner = nearestCorner(thinned, cssX * ratio, cssY * ratio);
    return corner < 0 ? -1 : (thinned.reading[corner] ?? -1);
  }

  /** The reading that stands `steps` corner points further along the order of time; from -1 an end of the curve. */
  walk(reading: number, steps: number): number {
    const thinned = this.#thinned;
    if (thinned === null || thinned.length === 0) return -1;
    let corner =
      reading < 0 ? -1 : thinned.reading.subarray(0, thinned.length).findIndex((r) => r >= reading);
    if (reading >= 0 && corner < 0) corner = thinned.length - 1;
    return thinned.reading[walkedTo(corner, steps, thinned.length)] ?? -1;
  }

  /** Of the plot, in CSS pixels from the host's corner. */
  get frame(): { left: number; top: number; width: number; height: number } {
    const ratio = this.#ratio();
    const { left, top, width, height } = this.#plot.bbox;
    return { left: left / ratio, top: top / ratio, width: width / ratio, height: height / ratio };
  }

  /** Where a reading lies, in the units of the axes; NaN where it has no value. */
  placeOf(reading: number): { readonly x: number; readonly y: number } {
    const { x, y } = this.#picture.source;
    return { x: shownValue(x, reading), y: shownValue(y, reading) };
  }

  /** First and last reading that is drawn; -1 where nothing is. */
  get ends(): { readonly first: number; readonly last: number } {
    return { first: this.#thinned?.reading[0] ?? -1, last: this.lastDrawnReading };
  }

  /** Corner points of the last drawing, for measuring. */
  get cornerCount(): number {
    return this.#thinned?.length ?? 0;
  }

  /** Last reading that the last drawing reaches to; -1 before the first. */
  get lastDrawnReading(): number {
    const thinned = this.#thinned;
    return thinned === null || thinned.length === 0 ? -1 : (thinned.reading[thinned.length - 1] ?? -1);
  }

  destroy(): void {
    this.#plot.destroy();
  }

  #make(): uPlot {
    return new uPlot(this.#options(), [null, [[0], [0]]] as unknown as uPlot.AlignedData, this.#host);
  }

  #ratio(): number {
    return this.#plot.ctx.canvas.width / Math.max(this.#plot.width, 1);
  }

  #map(): PixelMap {
    const { left, top, width, height } = this.#plot.bbox;
    const { xRange, yRange } = this.#picture;
    const xPerUnit = width / (xRange.max - xRange.min);
    const yPerUnit = -height / (yRange.max - yRange.min);
    return {
      xPerUnit,
      xOffset: left - xRange.min * xPerUnit,
      yPerUnit,
      yOffset: top + height - yRange.min * yPerUnit,
    };
  }

  /** Canvas pixels to a millimetre of what core draws. */
  #pxPerMm(): number {
    return CSS_PX_PER_MM * this.#ratio() * this.#textScale;
  }

  #options(): uPlot.Options {
    const { xRange, yRange } = this.#picture;
    return {
      // eslint-disable-next-line @typescript-eslint/no-unsafe-enum-assignment -- an ambient const enum can't be imported
      mode: 2,
      width: Math.max(40, this.#host.clientWidth),
      height: Math.max(40, this.#host.clientHeight),
      pxAlign: 0,
      padding: [12, Math.round(16 * this.#textScale), 4, 6],
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false, auto: false, min: xRange.min, max: xRange.max },
        y: { auto: false, min: yRange.min, max: yRange.max },
      },
      axes: [this.#axis('x'), this.#axis('y')],
      series: [
        null as unknown as uPlot.Series,
        {
          facets: [
            { scale: 'x', auto: false },
            { scale: 'y', auto: false },
          ],
          pxAlign: 0,
          points: { show: false },
          // Drawn by ourselves in `drawSeries`: uPlot would stroke it as one path.
          paths: () => null,
        },
      ],
      hooks: {
        drawClear: [() => this.#drawPaper()],
        drawSeries: [() => this.#drawCurve()],
        draw: [() => this.#drawOver()],
      },
    };
  }

  #axis(which: 'x' | 'y'): uPlot.Axis {
    const range = () => (which === 'x' ? this.#picture.xRange : this.#picture.yRange);
    const text = (px: number): number => Math.round(px * this.#textScale);
    return {
      scale: which,
      // eslint-disable-next-line @typescript-eslint/no-unsafe-enum-assignment -- an ambient const enum can't be imported
      side: which === 'x' ? 2 : 3,
      font: `${String(text(AXIS_FONT_PX))}px ${PLOT_FONT}`,
      labelFont: `700 ${String(text(AXIS_FONT_PX))}px ${PLOT_FONT}`,
      label: which === 'y' ? this.#picture.yLabel : this.#isLow ? '' : this.#picture.xLabel,
      labelSize: this.#isLow && which === 'x' ? 0 : text(22),
      labelGap: 2,
      gap: AXIS_GAP_PX,
      size: text(which === 'x' ? 28 : 54),
      stroke: () => this.#palette.ink,
      grid: { stroke: () => `${this.#palette.edge}66`, width: 1 },
      ticks: { show: false },
      border: { show: true, stroke: () => this.#palette.ink, width: 2 },
      splits: () => ticks(range().min, range().max, this.#step(which)),
      values: (_plot, splits) => {
        const places = tickPlaces(this.#step(which));
        const texts = splits.map((value) => this.#picture.tickText(value, places));
        return which === 'x' && this.#isLow ? this.#besideName(splits, texts) : texts;
      },
    };
  }

  /** While uPlot works out its axes the canvas still has the size that it had before, or that of a new one. */
  #ratioToBe(): number {
    return window.devicePixelRatio;
  }

  /** Left edge of the lower axis' name where it stands among the figures, in pixels of the canvas. */
  #nameLeft(): number {
    const { ctx, bbox } = this.#plot;
    const name = this.#nameAmongFigures();
    return bbox.left + bbox.width - ctx.measureText(name).width;
  }

  /** "time since start, s", or "s". */
  #nameAmongFigures(): string {
    const { ctx, bbox } = this.#plot;
    const { xLabel } = this.#picture;
    ctx.font = this.#nameFont();
    if (ctx.measureText(xLabel).width <= NAME_PART_MAX * bbox.width) return xLabel;
    return xLabel.split(', ').at(-1) ?? xLabel;
  }

  #nameFont(): string {
    return `700 ${String(AXIS_FONT_PX * this.#ratioToBe() * this.#textScale)}px ${PLOT_FONT}`;
  }

  /** Figures that the name has the place of are left out. */
  #besideName(places: readonly number[], texts: readonly string[]): string[] {
    const { ctx } = this.#plot;
    ctx.save();
    const left = this.#nameLeft();
    const { xPerUnit, xOffset } = this.#map();
    const gap = 0.5 * AXIS_FONT_PX * this.#ratioToBe() * this.#textScale;
    const kept = texts.map((text, i) => {
      const right = xOffset + (places[i] ?? 0) * xPerUnit + ctx.measureText(text).width / 2;
      return right + gap > left ? '' : text;
    });
    ctx.restore();
    return kept;
  }

  #step(which: 'x' | 'y'): number {
    const { min, max } = which === 'x' ? this.#picture.xRange : this.#picture.yRange;
    const room = (which === 'x' ? this.#plot.bbox.width : this.#plot.bbox.height) / this.#ratioToBe();
    return tickStep(
      min,
      max,
      room / (MAIN_LINES_MM[which === 'x' ? 'along' : 'up'] * CSS_PX_PER_MM * this.#textScale),
    );
  }

  #drawCurve(): void {
    const thinned =
      this.#picture.isPart === true
        ? this.#partOfCurve()
        : this.#trace.follow(this.#picture.source, this.#map());
    this.#thinned = thinned;
    this.#settledCorners = thinned.settledLength;
    this.#stroke(thinned);
  }

  #partOfCurve(): ThinnedTrace {
    const { left, top, width, height } = this.#plot.bbox;
    return this.#part.thin(this.#picture.source, this.#map(), {
      left,
      right: left + width,
      top,
      bottom: top + height,
    });
  }

  #stroke(corners: Corners): void {
    const { ctx, bbox } = this.#plot;
    const scale = this.#ratio() * this.#textScale;
    ctx.save();
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.clip();
    ctx.strokeStyle = this.#palette[this.#picture.ink];
    ctx.lineWidth = CURVE_WIDTH_PX * scale;
    ctx.setLineDash(CURVE_DASH[this.#picture.ink].map((d) => d * scale));
    strokeTrace(ctx, corners);
    ctx.restore();
  }

  /** Chart paper: fine squares under uPlot's own main lines. */
  #drawPaper(): void {
    // The labels of the axes are read by uPlot when it draws them; the language may have changed since.
    const [xAxis, yAxis] = this.#plot.axes;
    if (xAxis !== undefined) xAxis.label = this.#isLow ? '' : this.#picture.xLabel;
    if (yAxis !== undefined) yAxis.label = this.#picture.yLabel;
    const context = this.#plot.ctx;
    const { left, top, width, height } = this.#plot.bbox;
    const ratio = this.#ratio() * this.#textScale;
    const palette = this.#palette;
    const map = this.#map();
    const toX = (value: number): number => map.xOffset + value * map.xPerUnit;
    const toY = (value: number): number => map.yOffset + value * map.yPerUnit;
    context.save();
    context.fillStyle = palette.paper;
    context.fillRect(left, top, width, height);
    context.strokeStyle = palette.rule;
    context.lineWidth = Math.max(1, 0.75 * ratio);
    context.beginPath();
    const { xRange, yRange } = this.#picture;
    for (const x of ticks(xRange.min, xRange.max, this.#step('x') / FINE_LINES)) {
      context.moveTo(toX(x), top);
      context.lineTo(toX(x), top + height);
    }
    for (const y of ticks(yRange.min, yRange.max, this.#step('y') / FINE_LINES)) {
      context.moveTo(left, toY(y));
      context.lineTo(left + width, toY(y));
    }
    context.stroke();
    if (this.#isLow) {
      // Beneath the curve, which ends on the axis where the specimen is broken.
      context.fillStyle = palette.ink;
      context.font = this.#nameFont();
      context.textAlign = 'left';
      context.textBaseline = 'top';
      context.fillText(
        this.#nameAmongFigures(),
        this.#nameLeft(),
        top + height + AXIS_GAP_PX * this.#ratio(),
      );
    }
    context.restore();
  }

  #drawOver(): void {
    const { source, gaps, lines, marks, xRange, yRange } = this.#picture;
    const { left, top, width, height } = this.#plot.bbox;
    const pxPerMm = this.#pxPerMm();
    const area = new PlotArea(
      { x: left / pxPerMm, y: top / pxPerMm, width: width / pxPerMm, height: height / pxPerMm },
      { ...xRange, ticks: [], title: '' },
      { ...yRange, ticks: [], title: '' },
    );
    const cursor = { sign: 'point' as const, reading: this.#cursorReading, label: '' };
    const standing = [...marks, ...(this.#cursorReading >= 0 ? [cursor] : [])].flatMap(
      ({ sign, label, reading }) => {
        if (reading < source.from || reading >= source.length) return [];
        const [x, y] = [shownValue(source.x, reading), shownValue(source.y, reading)];
        return Number.isFinite(x) && Number.isFinite(y) ? [{ sign, words: label, x, y }] : [];
      },
    );
    const { beneath, above } = sceneShapes({ marks: standing, lines, gaps }, area, {
      paths: this.#thinned === null ? [] : [curveToAvoid(this.#thinned, pxPerMm)],
    });
    paintShapes(this.#plot.ctx, [...beneath, ...above], { pxPerMm, palette: this.#palette });
    this.#tellDrawn(true);
  }

  /** For whoever measures how long a reading takes to the screen; nobody listens in use. */
  #tellDrawn(isWhole: boolean): void {
    this.#host.dispatchEvent(
      new CustomEvent<CurveDrawn>('curve-drawn', {
        bubbles: true,
        detail: { reading: this.lastDrawnReading, corners: this.cornerCount, isWhole },
      }),
    );
  }
}

const isSameScale = (a: PlotPicture, b: PlotPicture): boolean =>
  a.xRange.min === b.xRange.min &&
  a.xRange.max === b.xRange.max &&
  a.yRange.min === b.yRange.min &&
  a.yRange.max === b.yRange.max;
