/**
 * Frame, axes and chart paper of a plot, by uPlot in its mode of x/y pairs, on a canvas that stands aside: it is drawn
 * anew only where something of it changes. No curve is on it.
 */
import uPlot from 'uplot';
import type { PixelMap } from '../../core/curve/thinning.ts';
import { MAIN_LINES_MM, tickPlaces, tickStep, ticks } from '../../core/drawing/axis-ticks.ts';
import type { Palette } from '../design/palette.ts';
import { CSS_PX_PER_MM } from './drawing-scale.ts';
import { PLOT_FONT } from './paint-drawing.ts';
import type { PlotPicture } from './picture.ts';

/** Fine lines to a main one: chart paper, not a table. */
const FINE_LINES = 5;
const AXIS_FONT_PX = 14;
/** A plot that is lower, in the smallest window, has the name of its lower axis in the line of that axis' figures. */
const LOW_PX = 240;
const AXIS_GAP_PX = 5;
/** Part of the axis that its name may take there; above it the unit stands alone, or too few figures would be left to read by. */
const NAME_PART_MAX = 0.45;

/** In CSS pixels. */
export interface PaperSize {
  readonly width: number;
  readonly height: number;
  /** Size of the page's text over 16 px: a large window has larger print on its axes too. */
  readonly textScale: number;
}

export type PaperPicture = Pick<PlotPicture, 'xRange' | 'yRange' | 'xLabel' | 'yLabel' | 'tickText'>;

export class PlotPaper {
  readonly #plot: uPlot;
  readonly #textScale: number;
  readonly #isLow: boolean;
  #picture: PaperPicture;
  #palette: Palette;

  /** `drawn` is called after each drawing, also one that the screen's pixels called for. */
  constructor(size: PaperSize, picture: PaperPicture, palette: Palette, drawn: () => void) {
    this.#textScale = size.textScale;
    this.#isLow = isLow(size);
    this.#picture = picture;
    this.#palette = palette;
    this.#plot = new uPlot(this.#options(size, drawn), NOTHING, document.createElement('div'));
  }

  get canvas(): HTMLCanvasElement {
    return this.#plot.ctx.canvas;
  }

  /** In CSS pixels. */
  get size(): PaperSize {
    const { width, height } = this.#plot;
    return { width, height, textScale: this.#textScale };
  }

  /** Of the frame, in pixels of the canvas. */
  get frame(): uPlot.BBox {
    return this.#plot.bbox;
  }

  /** Pixels of the canvas for one of the page's. */
  get ratio(): number {
    return this.#plot.ctx.canvas.width / Math.max(this.#plot.width, 1);
  }

  get textScale(): number {
    return this.#textScale;
  }

  isSizeOf({ width, height, textScale }: PaperSize): boolean {
    return textScale === this.#textScale && width === this.#plot.width && height === this.#plot.height;
  }

  /** False where that takes another paper: uPlot takes the faces of its axes, and the room beside them, once and for all. */
  fit(size: PaperSize): boolean {
    if (size.textScale !== this.#textScale || isLow(size) !== this.#isLow) return false;
    this.#plot.setSize({ width: size.width, height: size.height });
    return true;
  }

  draw(picture: PaperPicture, palette: Palette): void {
    this.#picture = picture;
    this.#palette = palette;
    const { xRange, yRange } = picture;
    const { x, y } = this.#plot.scales;
    this.#plot.batch(() => {
      if (x?.min !== xRange.min || x.max !== xRange.max || y?.min !== yRange.min || y.max !== yRange.max) {
        this.#plot.setScale('x', { min: xRange.min, max: xRange.max });
        this.#plot.setScale('y', { min: yRange.min, max: yRange.max });
      } else this.#plot.redraw(true, true);
    });
  }

  destroy(): void {
    this.#plot.destroy();
  }

  /** From values to pixels of the canvas, for the picture drawn last. */
  map(): PixelMap {
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

  #options({ width, height }: PaperSize, drawn: () => void): uPlot.Options {
    const { xRange, yRange } = this.#picture;
    return {
      // eslint-disable-next-line @typescript-eslint/no-unsafe-enum-assignment -- an ambient const enum can't be imported
      mode: 2,
      width,
      height,
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
          // Drawn by ourselves: uPlot would stroke it as one path.
          paths: () => null,
        },
      ],
      hooks: {
        drawClear: [() => this.#drawPaper()],
        draw: [drawn],
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
    const { xPerUnit, xOffset } = this.map();
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

  /** Chart paper: fine squares under uPlot's own main lines. */
  #drawPaper(): void {
    // The labels of the axes are read by uPlot when it draws them; the language may have changed since.
    const [xAxis, yAxis] = this.#plot.axes;
    if (xAxis !== undefined) xAxis.label = this.#isLow ? '' : this.#picture.xLabel;
    if (yAxis !== undefined) yAxis.label = this.#picture.yLabel;
    const context = this.#plot.ctx;
    const { left, top, width, height } = this.#plot.bbox;
    const ratio = this.ratio * this.#textScale;
    const palette = this.#palette;
    const map = this.map();
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
      context.fillText(this.#nameAmongFigures(), this.#nameLeft(), top + height + AXIS_GAP_PX * this.ratio);
    }
    context.restore();
  }
}

const NOTHING = [null, [[0], [0]]] as unknown as uPlot.AlignedData;

const isLow = ({ height, textScale }: PaperSize): boolean => height < LOW_PX * textScale;
