/**
 * A picture that grows, on narrow canvases side by side. Without a graphics card each change of a canvas costs a copy
 * of all of it, and from a MiB on the engine asks the system for each copy's memory anew: one point a frame took 10 %
 * of a core on 600 × 380 pixels and 40 % on 600 × 420, on the machine this was written on. So only those panes are
 * touched in which something has changed.
 */

/** Well below where copies become dear. */
const PANE_BYTES_MAX = 640 * 1024;
const BYTES_PER_PIXEL = 4;
/** CSS pixels; narrower ones would be more pieces than pictures. */
const PANE_WIDTH_MIN = 64;
const EDGE_STEP = 4;

/** From where to where something lies across the picture, in its pixels. */
export interface Across {
  readonly left: number;
  readonly right: number;
}

/** Whether two stretches have a place in common. */
export const meet = (one: Across, other: Across): boolean =>
  one.right >= other.left && one.left <= other.right;

/** In CSS pixels. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
}

/** Draws in the pixels of the whole picture; what lies outside `across` isn't seen. */
export type DrawOnPane = (context: CanvasRenderingContext2D, across: Across) => void;

/** What is drawn over a pane. */
export interface DrawnOver {
  /** Another with another drawing. */
  readonly said: string;
  readonly draw: DrawOnPane;
}

class Pane implements Across {
  readonly canvas: HTMLCanvasElement;
  readonly left: number;
  readonly right: number;
  readonly #shown: CanvasRenderingContext2D;
  /** Paper and as much of the curve as stays where it is. */
  readonly #kept: CanvasRenderingContext2D;
  hasCurve = false;
  /** What is shown is not, or may soon not be, what is kept with the marks over it. */
  isStale = true;
  /** What was said of the marks that are shown. */
  said = '';

  constructor({ left, right }: Across, height: number) {
    this.left = left;
    this.right = right;
    this.#shown = madeContext(right - left, height);
    this.#kept = madeContext(right - left, height);
    this.canvas = this.#shown.canvas;
  }

  toPaper(paper: HTMLCanvasElement): void {
    replace(this.#kept, paper, this.left);
    this.hasCurve = false;
    this.isStale = true;
  }

  drawKept(draw: DrawOnPane): void {
    this.#draw(this.#kept, draw);
    this.hasCurve = true;
    this.isStale = true;
  }

  drawShown(draw: DrawOnPane): void {
    this.#draw(this.#shown, draw);
    this.isStale = true;
  }

  showKept(): void {
    replace(this.#shown, this.#kept.canvas, 0);
  }

  #draw(context: CanvasRenderingContext2D, draw: DrawOnPane): void {
    context.save();
    context.translate(-this.left, 0);
    draw(context, this);
    context.restore();
  }
}

export class CanvasPanes {
  readonly #host: HTMLElement;
  #panes: readonly Pane[] = [];
  #size = '';
  #paper: HTMLCanvasElement | null = null;

  constructor(host: HTMLElement) {
    this.#host = host;
  }

  /** Begins anew on this paper, which is as large as the picture; `onPage`: its size in CSS pixels. */
  layPaper(paper: HTMLCanvasElement, onPage: PageSize): void {
    this.#paper = paper;
    const size = [paper.width, paper.height, onPage.width, onPage.height].join(' ');
    if (size !== this.#size) {
      this.#size = size;
      for (const { canvas } of this.#panes) canvas.remove();
      this.#panes = panesFor(paper, onPage);
      this.#host.append(...this.#panes.map(({ canvas }) => canvas));
    }
    for (const pane of this.#panes) pane.toPaper(paper);
  }

  eraseCurve(): void {
    const paper = this.#paper;
    if (paper !== null) for (const pane of this.#panes) if (pane.hasCurve) pane.toPaper(paper);
  }

  /** Onto what is kept; seen with the next `show`. */
  drawKept(across: Across, draw: DrawOnPane): void {
    for (const pane of this.#touched(across)) pane.drawKept(draw);
  }

  /** Onto what is shown, until the next `show`. */
  drawShown(across: Across, draw: DrawOnPane): void {
    for (const pane of this.#touched(across)) pane.drawShown(draw);
  }

  /**
   * Shows what is kept, in panes where it or what is drawn over it has changed. `open`: where the end of the curve is
   * drawn over it, which is elsewhere the next time.
   */
  show(over: (across: Across) => DrawnOver, open: Across): void {
    for (const pane of this.#panes) {
      const { said, draw } = over(pane);
      const isOpen = meet(pane, open);
      if (said === pane.said && !pane.isStale && !isOpen) continue;
      pane.said = said;
      pane.showKept();
      pane.drawShown(draw);
      pane.isStale = isOpen;
    }
  }

  remove(): void {
    for (const { canvas } of this.#panes) canvas.remove();
    this.#panes = [];
    this.#paper = null;
    this.#size = '';
  }

  #touched(across: Across): readonly Pane[] {
    return this.#panes.filter((pane) => meet(pane, across));
  }
}

/** Edges stand where screens of 125, 150 and 175 % have whole pixels too: no seam, and no pane a pixel wider than it is drawn. */
function panesFor({ width, height }: HTMLCanvasElement, onPage: PageSize): Pane[] {
  const cssWidth = Math.max(onPage.width, 1);
  const ratio = width / cssWidth;
  const columnsMax = PANE_BYTES_MAX / (BYTES_PER_PIXEL * Math.max(height, 1));
  const cssMax = Math.max(PANE_WIDTH_MIN, Math.floor(columnsMax / ratio));
  const count = Math.max(1, Math.ceil(cssWidth / cssMax));
  const edge = (k: number): number =>
    k === count ? cssWidth : Math.round((cssWidth * k) / count / EDGE_STEP) * EDGE_STEP;
  return Array.from({ length: count }, (_, k) => {
    const [from, to] = [edge(k), edge(k + 1)];
    const pane = new Pane({ left: Math.round(from * ratio), right: Math.round(to * ratio) }, height);
    pane.canvas.style.left = `${String(from)}px`;
    pane.canvas.style.width = `${String(to - from)}px`;
    pane.canvas.style.height = `${String(onPage.height)}px`;
    return pane;
  });
}

/** Copies a part of a picture over all that is there. */
function replace(onto: CanvasRenderingContext2D, from: HTMLCanvasElement, left: number): void {
  onto.save();
  onto.globalCompositeOperation = 'copy';
  onto.drawImage(from, -left, 0);
  onto.restore();
}

function madeContext(width: number, height: number): CanvasRenderingContext2D {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('This engine draws no canvas.');
  return context;
}
