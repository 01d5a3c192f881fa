/** Marks, gaps and construction lines on the canvas of a plot. Each mark has a shape of its own beside its word. */
import type { Palette } from '../design/palette.ts';
import { type LabelPlaces, placeWords } from './label-places.ts';
import type { ConstructionLine, MarkSign, PlotGap, PlotMark } from './picture.ts';

export interface DrawingPlace {
  readonly context: CanvasRenderingContext2D;
  /** Canvas pixels to a CSS pixel. */
  readonly ratio: number;
  /** Plotting area in canvas pixels. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly palette: Palette;
  readonly toX: (value: number) => number;
  readonly toY: (value: number) => number;
}

export const PLOT_FONT = 'B612, sans-serif';

export function drawGaps(place: DrawingPlace, gaps: readonly PlotGap[], labels: LabelPlaces): void {
  const { context, ratio, top, height, palette } = place;
  for (const gap of gaps) {
    const from = Math.max(place.toX(gap.fromX), place.left);
    const to = Math.min(place.toX(gap.toX), place.left + place.width);
    if (to <= from) continue;
    context.save();
    context.beginPath();
    context.rect(from, top, Math.max(to - from, 2 * ratio), height);
    context.clip();
    context.strokeStyle = palette.edge;
    context.lineWidth = ratio;
    context.beginPath();
    const step = 9 * ratio;
    for (let x = from - height; x < to; x += step) {
      context.moveTo(x, top + height);
      context.lineTo(x + height, top);
    }
    context.stroke();
    context.restore();
    context.font = labelFont(ratio);
    const width = context.measureText(gap.label).width + 4 * ratio;
    const wordHeight = LABEL_PX * 1.25 * ratio;
    // In the middle of the gap at the top; gaps beside one another take the next free places.
    const at = labels.place((from + to) / 2, top + 16 * ratio + wordHeight, width, wordHeight, wordHeight);
    if (at !== null) writeLabel(place, gap.label, at.x, at.y, 'center', palette.ink);
  }
}

export function drawLines(
  place: DrawingPlace,
  lines: readonly ConstructionLine[],
  labels: LabelPlaces,
): void {
  const { context, ratio, palette } = place;
  for (const line of lines) {
    context.save();
    context.beginPath();
    context.rect(place.left, place.top, place.width, place.height);
    context.clip();
    context.strokeStyle = palette.grey;
    context.lineWidth = 1.5 * ratio;
    context.setLineDash([7 * ratio, 4 * ratio]);
    context.beginPath();
    context.moveTo(place.toX(line.from[0]), place.toY(line.from[1]));
    context.lineTo(place.toX(line.to[0]), place.toY(line.to[1]));
    context.stroke();
    context.restore();
    context.font = labelFont(ratio);
    const width = context.measureText(line.label).width + 4 * ratio;
    // Beside the lower half of the line, where the curve leaves room.
    const middleX = place.toX((line.from[0] * 2 + line.to[0]) / 3);
    const middleY = place.toY((line.from[1] * 2 + line.to[1]) / 3);
    const aside = 10 * ratio;
    const at = labels.place(
      middleX + width / 2 + aside,
      middleY + aside,
      width,
      LABEL_PX * 1.25 * ratio,
      aside,
    );
    if (at !== null) writeLabel(place, line.label, at.x, at.y, 'center', palette.grey);
  }
}

/** A mark where it stands on the canvas. */
export interface StandingMark extends Pick<PlotMark, 'sign' | 'label'> {
  readonly x: number;
  readonly y: number;
}

/** All signs first, then the words in what room is left, so that no word is covered by the next sign. */
export function drawMarks(place: DrawingPlace, marks: readonly StandingMark[], labels: LabelPlaces): void {
  const { context, ratio, palette } = place;
  for (const mark of marks) {
    context.save();
    context.translate(mark.x, mark.y);
    context.scale(ratio, ratio);
    SIGNS[mark.sign](context, palette);
    context.restore();
    labels.reserve(signBox(mark, ratio));
  }
  context.font = labelFont(ratio);
  const widthOf = (text: string): number => context.measureText(text).width + 4 * ratio;
  const named = marks.filter(({ label }) => label !== '');
  const height = LABEL_PX * 1.25 * ratio;
  const placed = placeWords(
    labels,
    named.map(({ x, y, sign, label }) => ({
      x,
      y,
      width: widthOf(label),
      height,
      distance: LABEL_DISTANCE_PX[sign] * ratio,
    })),
    widthOf('+9'),
  );
  named.forEach((mark, i) => {
    const at = placed.words[i] ?? null;
    if (at === null) return;
    const ink = INK_OF[mark.sign](palette);
    if (at.x !== mark.x && Math.abs(at.y - mark.y) > FAR_HEIGHTS * height)
      drawLeader(place, mark, at, widthOf(mark.label), ink);
    writeLabel(place, mark.label, at.x, at.y, 'center', ink);
  });
  for (const { count, at } of placed.counts)
    writeLabel(place, `+${String(count)}`, at.x, at.y, 'center', palette.ink);
}

/** A word aside and further up or down than this many of its heights is tied to its mark by a thin line. */
const FAR_HEIGHTS = 0.9;

function drawLeader(
  { context, ratio }: DrawingPlace,
  mark: StandingMark,
  at: { readonly x: number; readonly y: number },
  width: number,
  ink: string,
): void {
  const side = Math.sign(at.x - mark.x);
  context.save();
  context.strokeStyle = ink;
  context.lineWidth = ratio;
  context.beginPath();
  context.moveTo(mark.x, mark.y);
  context.lineTo(at.x - (side * width) / 2, at.y);
  context.stroke();
  context.restore();
}

/** Half the side of a sign, CSS pixels. */
const SIGN_HALF_PX = 7;
/** The pointer of the peak stands above its reading. */
const PEAK_UP_PX = 6;

function signBox({ x, y, sign }: StandingMark, ratio: number) {
  const half = SIGN_HALF_PX * ratio;
  const up = sign === 'peak' ? PEAK_UP_PX * ratio : 0;
  return { left: x - half, top: y - half - up, width: 2 * half, height: 2 * half };
}

const LABEL_PX = 13;
const labelFont = (ratio: number): string => `700 ${String(LABEL_PX * ratio)}px ${PLOT_FONT}`;
/** From the middle of a mark to the middle of its word, so that the word clears the sign. */
const LABEL_DISTANCE_PX: Readonly<Record<MarkSign, number>> = {
  start: 16,
  peak: 22,
  break: 17,
  stop: 17,
  now: 18,
  point: 20,
};

const INK_OF: Readonly<Record<MarkSign, (palette: Palette) => string>> = {
  start: (p) => p.ink,
  peak: (p) => p.purple,
  break: (p) => p.cherry,
  stop: (p) => p.bronze,
  now: (p) => p.ink,
  point: (p) => p.ink,
};

type Sign = (context: CanvasRenderingContext2D, palette: Palette) => void;

const SIGNS: Readonly<Record<MarkSign, Sign>> = {
  /** A gauge mark: cross through a dot. */
  start: (c, p) => {
    c.strokeStyle = p.ink;
    c.lineWidth = 1.8;
    c.beginPath();
    c.moveTo(-7, 0);
    c.lineTo(7, 0);
    c.moveTo(0, -7);
    c.lineTo(0, 7);
    c.stroke();
  },
  /** A pointer standing on the peak. */
  peak: (c, p) => {
    c.fillStyle = p.purple;
    c.beginPath();
    c.moveTo(0, -2);
    c.lineTo(-7, -13);
    c.lineTo(7, -13);
    c.closePath();
    c.fill();
  },
  break: (c, p) => {
    c.strokeStyle = p.cherry;
    c.lineWidth = 3;
    c.beginPath();
    c.moveTo(-6, -6);
    c.lineTo(6, 6);
    c.moveTo(6, -6);
    c.lineTo(-6, 6);
    c.stroke();
  },
  stop: (c, p) => {
    c.strokeStyle = p.bronze;
    c.lineWidth = 2.5;
    c.strokeRect(-6, -6, 12, 12);
  },
  now: (c, p) => {
    c.fillStyle = p.call;
    c.strokeStyle = p.ink;
    c.lineWidth = 2.5;
    c.beginPath();
    c.arc(0, 0, 6.5, 0, 2 * Math.PI);
    c.fill();
    c.stroke();
  },
  point: (c, p) => {
    c.strokeStyle = p.focus;
    c.lineWidth = 2.5;
    c.beginPath();
    c.arc(0, 0, 9, 0, 2 * Math.PI);
    c.moveTo(-14, 0);
    c.lineTo(-9, 0);
    c.moveTo(9, 0);
    c.lineTo(14, 0);
    c.moveTo(0, -14);
    c.lineTo(0, -9);
    c.moveTo(0, 9);
    c.lineTo(0, 14);
    c.stroke();
  },
};

function writeLabel(
  place: DrawingPlace,
  text: string,
  x: number,
  y: number,
  align: CanvasTextAlign,
  ink: string,
): void {
  const { context, ratio, palette } = place;
  context.save();
  context.font = labelFont(ratio);
  context.textAlign = align;
  context.textBaseline = 'middle';
  context.lineJoin = 'round';
  context.strokeStyle = palette.paper;
  context.lineWidth = 7 * ratio;
  context.strokeText(text, x, y);
  context.fillStyle = ink;
  context.fillText(text, x, y);
  context.restore();
}
