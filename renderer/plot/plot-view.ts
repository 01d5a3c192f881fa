/**
 * A curve on its chart paper. Its path is our own, since a load–extension curve runs backwards at times and must never be
 * sorted. What stays where it is (paper, the settled part of the curve) is kept, so that a reading that comes, and a
 * cursor that moves, cost as little as they change.
 */
import type { PixelMap, ThinnedTrace } from '../../core/curve/thinning.ts';
import type { Shape } from '../../core/drawing/drawing.ts';
import { PlotArea } from '../../core/drawing/plot-area.ts';
import { sceneShapes } from '../../core/drawing/scene-shapes.ts';
import type { Palette } from '../design/palette.ts';
import { type Across, CanvasPanes, type DrawOnPane, meet } from './canvas-panes.ts';
import { CURVE_DASH, CURVE_WIDTH_PX } from './curve-style.ts';
import { curveToAvoid } from './curve-to-avoid.ts';
import { CSS_PX_PER_MM } from './drawing-scale.ts';
import { paintShapes } from './paint-drawing.ts';
import type { PlotPicture } from './picture.ts';
import { walkedTo } from './plot-keys.ts';
import { type PaperSize, PlotPaper } from './plot-paper.ts';
import { acrossOf } from './shape-across.ts';
import { cornersAcross, lengthAlong, strokeTrace } from './stroke-trace.ts';
import { PartOfTrace, Trace, nearestCorner, shownValue } from './trace.ts';

/** CSS pixels; a place that is narrower or lower stays bare. */
const SIDE_MIN = 40;

type Scale = Pick<PlotPicture, 'xRange' | 'yRange'>;

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
  readonly #panes: CanvasPanes;
  #paper: PlotPaper;
  #isPaperDrawn = false;
  readonly #trace = new Trace();
  readonly #part = new PartOfTrace();
  #picture: PlotPicture;
  #palette: Palette;
  #thinned: ThinnedTrace | null = null;
  /** The map that the kept curve was drawn with: another one as soon as a corner point that had settled is elsewhere. */
  #keptMap: PixelMap | null = null;
  /** Corner points that stay where they are drawn; those behind them are of a run that is still open. */
  #settledCorners = 0;
  /** How far the dash has run up to the last of them, in pixels. */
  #settledAlong = 0;
  /** Reading under the cursor; -1 for none. */
  #cursorReading = -1;

  constructor(host: HTMLElement, picture: PlotPicture, palette: Palette) {
    this.#host = host;
    this.#panes = new CanvasPanes(host);
    this.#picture = picture;
    this.#palette = palette;
    this.#paper = this.#newPaper();
  }

  /** Shows another picture from the next draw on. */
  show(picture: PlotPicture): void {
    const before = this.#picture;
    if (!isSameScale(picture, before) || picture.xLabel !== before.xLabel || picture.yLabel !== before.yLabel)
      this.#isPaperDrawn = false;
    if (picture.ink !== before.ink) this.#keptMap = null;
    this.#picture = picture;
  }

  setPalette(palette: Palette): void {
    this.#palette = palette;
  }

  /** Stands the cursor on a reading; -1 takes it away. */
  setCursor(reading: number): void {
    this.#cursorReading = reading;
  }

  /** Nothing of the last drawing is of use to the next: colours, letters or the form of figures may be others. */
  forgetDrawn(): void {
    this.#isPaperDrawn = false;
  }

  /** Fits the plot to its place. False where there is no room yet. */
  fit(): boolean {
    const size = this.#size();
    if (size.width < SIDE_MIN || size.height < SIDE_MIN) return false;
    if (this.#paper.isSizeOf(size)) return true;
    this.#isPaperDrawn = false;
    if (!this.#paper.fit(size)) {
      this.#paper.destroy();
      this.#paper = this.#newPaper();
    }
    return true;
  }

  draw(): void {
    if (this.#isPaperDrawn) this.#drawOnPaper();
    else this.#paper.draw(this.#picture, this.#palette);
  }

  /**
   * Draws what came since the last drawing onto it. Axes, marks and the pixels that overlap wait for the next whole
   * drawing; so does everything where the scale has changed.
   */
  lengthen(picture: PlotPicture): void {
    const { ink } = this.#picture;
    if (!this.#isPaperDrawn || picture.isPart === true || picture.ink !== ink) return;
    if (!isSameScale(picture, this.#picture)) return;
    this.#picture = picture;
    const thinned = this.#trace.follow(picture.source, this.#paper.map());
    if (thinned.map !== this.#keptMap) return;
    const from = this.#settledCorners;
    const along = this.#settledAlong;
    this.#thinned = thinned;
    this.#keepSettled(thinned);
    this.#panes.drawShown(
      cornersAcross(thinned, from, thinned.length, this.#lineWidth()),
      this.#strokes(thinned, from, thinned.length, along),
    );
    this.#tellDrawn(false);
  }

  /** Reading nearest to a place given in CSS pixels from the host's corner; -1 where nothing is drawn. */
  readingAt(cssX: number, cssY: number): number {
    const thinned = this.#thinned;
    if (thinned === null) return -1;
    const { ratio } = this.#paper;
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
    const { ratio } = this.#paper;
    const { left, top, width, height } = this.#paper.frame;
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
    this.#paper.destroy();
    this.#panes.remove();
  }

  #newPaper(): PlotPaper {
    return new PlotPaper(this.#size(), this.#picture, this.#palette, () => this.#onPaper());
  }

  #size(): PaperSize {
    const { clientWidth, clientHeight } = this.#host;
    return { width: clientWidth, height: clientHeight, textScale: textScale() };
  }

  /** The paper has been drawn: it stays until something of it changes. */
  #onPaper(): void {
    this.#isPaperDrawn = true;
    this.#panes.layPaper(this.#paper.canvas, this.#paper.size);
    this.#keptMap = null;
    this.#drawOnPaper();
  }

  #drawOnPaper(): void {
    const thinned =
      this.#picture.isPart === true
        ? this.#partOfCurve()
        : this.#trace.follow(this.#picture.source, this.#paper.map());
    this.#thinned = thinned;
    if (thinned.map !== this.#keptMap) {
      this.#panes.eraseCurve();
      this.#keptMap = thinned.map;
      this.#settledCorners = 0;
      this.#settledAlong = 0;
    }
    this.#keepSettled(thinned);
    const pxPerMm = this.#pxPerMm();
    const shapes = this.#shapesOver().map((shape) => ({
      shape,
      across: inPixels(acrossOf(shape), pxPerMm),
      said: JSON.stringify(shape),
    }));
    const from = this.#settledCorners;
    const tail = this.#strokes(thinned, from, thinned.length, this.#settledAlong);
    const painted = { pxPerMm, palette: this.#palette };
    this.#panes.show(
      (pane) => {
        const its = shapes.filter(({ across }) => meet(across, pane));
        return {
          said: its.map(({ said }) => said).join(),
          draw: (context, across) => {
            tail(context, across);
            paintShapes(
              context,
              its.map(({ shape }) => shape),
              painted,
            );
          },
        };
      },
      cornersAcross(thinned, from, thinned.length, this.#lineWidth()),
    );
    this.#tellDrawn(true);
  }

  #partOfCurve(): ThinnedTrace {
    const { left, top, width, height } = this.#paper.frame;
    return this.#part.thin(this.#picture.source, this.#paper.map(), {
      left,
      right: left + width,
      top,
      bottom: top + height,
    });
  }

  /** Adds to the curve that is kept what has settled since. */
  #keepSettled(thinned: ThinnedTrace): void {
    const { settledLength } = thinned;
    const from = this.#settledCorners;
    if (settledLength === from) return;
    this.#panes.drawKept(
      cornersAcross(thinned, from, settledLength, this.#lineWidth()),
      this.#strokes(thinned, from, settledLength, this.#settledAlong),
    );
    this.#settledAlong += lengthAlong(thinned, from, settledLength);
    this.#settledCorners = settledLength;
  }

  /** Strokes corner points from `from` on, joined to the one before. */
  #strokes(thinned: ThinnedTrace, from: number, to: number, along: number): DrawOnPane {
    const first = Math.max(from - 1, 0);
    const corners = {
      x: thinned.x.subarray(first, to),
      y: thinned.y.subarray(first, to),
      lifts: thinned.lifts.subarray(first, to),
      length: to > from ? to - first : 0,
    };
    const { left, top, width, height } = this.#paper.frame;
    return (context, across) => {
      context.save();
      context.beginPath();
      context.rect(left, top, width, height);
      context.clip();
      context.strokeStyle = this.#palette[this.#picture.ink];
      context.lineWidth = this.#lineWidth();
      context.setLineDash(this.#dash());
      strokeTrace(context, corners, along, across);
      context.restore();
    };
  }

  /** Pixels of the canvas for a CSS pixel at the usual size of print. */
  #scale(): number {
    return this.#paper.ratio * this.#paper.textScale;
  }

  #lineWidth(): number {
    return CURVE_WIDTH_PX * this.#scale();
  }

  #dash(): number[] {
    return CURVE_DASH[this.#picture.ink].map((d) => d * this.#scale());
  }

  /** Canvas pixels to a millimetre of what core draws. */
  #pxPerMm(): number {
    return CSS_PX_PER_MM * this.#scale();
  }

  /** Construction lines, gaps, marks, in millimetres from the corner of the canvas. */
  #shapesOver(): readonly Shape[] {
    const { source, gaps, lines, marks, xRange, yRange } = this.#picture;
    const { left, top, width, height } = this.#paper.frame;
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
    return [...beneath, ...above];
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

const inPixels = ({ left, right }: Across, pxPerMm: number): Across => ({
  left: left * pxPerMm,
  right: right * pxPerMm,
});

const isSameScale = (a: Scale, b: Scale): boolean =>
  a.xRange.min === b.xRange.min &&
  a.xRange.max === b.xRange.max &&
  a.yRange.min === b.yRange.min &&
  a.yRange.max === b.yRange.max;
