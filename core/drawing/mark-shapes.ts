/** Marks on a curve: a small cross on the place, its words beside it, moved apart where they would lie on each other. */
import type { Box, MarkerForm, Shape } from './drawing.ts';
import { type Path, segmentsCrossBox, segmentsNear } from './path-crosses-box.ts';
import { INK } from './pens.ts';

export interface PlacedMark {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly form?: MarkerForm;
  readonly colour?: string;
}

const TEXT_MM = 2.8;
const CROSS_MM = 2.4;
const LINE_MM = TEXT_MM * 1.25;
const INSET_MM = 0.5;
const LETTER_WIDTH = 0.52;

/** What stands in the frame already. */
export interface Standing {
  readonly words?: readonly Box[];
  /** Lines that words should not hide, if there is room elsewhere. */
  readonly paths?: readonly Path[];
  /** Those among them that words should hide least: the marks' own curve. */
  readonly ownPaths?: readonly Path[];
}

/** Marks outside the frame are left out: their words are in the drawing's description. */
export function markShapes(
  marks: readonly PlacedMark[],
  frame: Box,
  { words = [], paths = [], ownPaths = paths }: Standing = {},
): Shape[] {
  const taken = [...words];
  return marks
    .filter(
      ({ x, y }) => x >= frame.x && x <= frame.x + frame.width && y >= frame.y && y <= frame.y + frame.height,
    )
    .flatMap((mark) => {
      if (mark.words === '') return [signOf(mark)];
      const label =
        nearPlaceOf(mark, frame, taken, paths) ??
        (ownPaths === paths ? null : nearPlaceOf(mark, frame, taken, ownPaths)) ??
        placeOf(mark, frame, taken);
      taken.push(label.box);
      return shapesOf(mark, label);
    });
}

interface LabelPlace {
  readonly box: Box;
  readonly anchor: 'start' | 'end';
}

/** How far a word may stand from its mark, in lines, so as not to lie on a path. */
const NEAR_LINES = 4;

/** Beside the mark or a few lines below or above it, where neither words nor paths are; null where there is no such place. */
function nearPlaceOf(
  { words, x, y }: PlacedMark,
  frame: Box,
  taken: readonly Box[],
  paths: readonly Path[],
): LabelPlace | null {
  const width = widthOf(words);
  const sides = [
    { anchor: 'start', left: x + CROSS_MM },
    { anchor: 'end', left: x - CROSS_MM - width },
  ] as const;
  const reach = (NEAR_LINES + 1) * LINE_MM;
  const around = { x: x - CROSS_MM - width, y: y - reach, width: 2 * (CROSS_MM + width), height: 2 * reach };
  const near = paths.map((path) => segmentsNear(path, around));
  const isFree = (box: Box): boolean =>
    box.x >= frame.x &&
    box.x + box.width <= frame.x + frame.width &&
    box.y >= frame.y &&
    box.y + box.height <= frame.y + frame.height &&
    !taken.some((other) => overlap(box, other)) &&
    !near.some((segments) => segmentsCrossBox(segments, box));
  for (let lines = 0; lines <= NEAR_LINES; lines++)
    for (const { anchor, left } of sides)
      for (const off of lines === 0 ? [0] : [lines, -lines]) {
        const box = { x: left, y: y - LINE_MM + off * LINE_MM, width, height: LINE_MM };
        if (isFree(box)) return { box, anchor };
      }
  return null;
}

/** With its room on both sides: words that began in theirs stood over the frame. */
const widthOf = (words: string): number => words.length * TEXT_MM * LETTER_WIDTH + 2 * INSET_MM;

/** To the right, or to the left near the right edge; downward line by line until it is free. */
function placeOf({ words, x, y }: PlacedMark, frame: Box, taken: readonly Box[]): LabelPlace {
  const width = widthOf(words);
  const toTheLeft = x + CROSS_MM + width > frame.x + frame.width;
  const left = toTheLeft ? Math.max(frame.x, x - CROSS_MM - width) : x + CROSS_MM;
  const lines = Math.max(1, Math.floor(frame.height / LINE_MM));
  const top = Math.min(Math.max(y - LINE_MM, frame.y + 0.5), frame.y + frame.height - LINE_MM);
  for (let i = 0; i < lines; i++) {
    // Down to the bottom of the frame, then from its top again.
    const at = frame.y + ((top - frame.y + i * LINE_MM) % Math.max(LINE_MM, frame.height - LINE_MM));
    const box = { x: left, y: at, width, height: LINE_MM };
    if (!taken.some((other) => overlap(box, other))) return { box, anchor: toTheLeft ? 'end' : 'start' };
  }
  return { box: { x: left, y: top, width, height: LINE_MM }, anchor: toTheLeft ? 'end' : 'start' };
}

function signOf({ x, y, form = 'plus', colour = INK }: PlacedMark): Shape {
  return { kind: 'marker', form, x, y, sizeMm: CROSS_MM, stroke: { colour, widthMm: 0.3 }, fill: 'none' };
}

function shapesOf(mark: PlacedMark, { box, anchor }: LabelPlace): Shape[] {
  const { words, x, y } = mark;
  const textX = anchor === 'start' ? box.x + INSET_MM : box.x + box.width - INSET_MM;
  const textY = box.y + TEXT_MM;
  const moved = Math.abs(textY - TEXT_MM * 0.35 - y) > LINE_MM;
  return [
    signOf(mark),
    ...(moved
      ? [
          {
            kind: 'line',
            x1: x,
            y1: y,
            x2: textX,
            y2: textY - TEXT_MM * 0.35,
            stroke: { colour: INK, widthMm: 0.1 },
          } as const,
        ]
      : []),
    { kind: 'text', x: textX, y: textY, text: words, sizeMm: TEXT_MM, anchor, colour: INK, halo: true },
  ];
}

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
