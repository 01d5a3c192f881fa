/** Marks on a curve: a sign on the place, its words beside it, moved apart where they would lie on each other. */
import type { Box, Shape } from './drawing.ts';
import { type Avoided, LabelPlaces, placeWords } from './label-places.ts';
import { type MarkSign, SIGN_LOOKS } from './mark-sign.ts';
import { type Path, segmentsNear } from './path-crosses-box.ts';
import { INK } from './pens.ts';

/** A mark in millimetres of the paper. */
export interface PlacedMark {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly sign?: MarkSign;
  readonly colour?: string;
}

const TEXT_MM = 2.8;
/** Height of a word with the room about it. */
export const WORD_MM = TEXT_MM * 1.25;
const INSET_MM = 0.5;
const LETTER_WIDTH = 0.52;
/** From the middle of a mark to the middle of its word, beyond half the sign. */
const BEYOND_SIGN_MM = 2.2;
/** A word aside and further up or down than this many of its heights is tied to its mark by a thin line. */
const FAR_HEIGHTS = 0.9;
const LEADER_MM = 0.15;

/** What stands in the frame already. */
export interface Standing {
  readonly words?: readonly Box[];
  /** Lines that words should not hide, if there is room elsewhere. */
  readonly paths?: readonly (Path | Avoided)[];
  /** Those among them that words should hide least: the marks' own curve. */
  readonly ownPaths?: readonly (Path | Avoided)[];
}

/** Width that words take, with room on both sides: words that began in theirs stood over the frame. */
export const wordWidthMm = (words: string): number => words.length * TEXT_MM * LETTER_WIDTH + 2 * INSET_MM;

/**
 * Signs first, then words in what room is left. Marks outside the frame are left out: their words are in the drawing's
 * description. Where words have no room at all their number stands for them ("+2").
 */
export function markShapes(
  marks: readonly PlacedMark[],
  frame: Box,
  { words = [], paths = [], ownPaths = paths }: Standing = {},
): Shape[] {
  const standing = marks.filter(
    ({ x, y }) => x >= frame.x && x <= frame.x + frame.width && y >= frame.y && y <= frame.y + frame.height,
  );
  const labels = new LabelPlaces(asPlace(frame));
  for (const box of words) labels.reserve(asPlace(box));
  for (const mark of standing) labels.reserve(asPlace(signBox(mark)));
  const named = standing.filter((mark) => mark.words !== '');
  const avoided = [paths, ownPaths].map((each) => each.map(avoidedOf));
  const placed = placeWords(
    labels,
    named.map((mark) => ({
      x: mark.x,
      y: mark.y,
      width: wordWidthMm(mark.words),
      height: WORD_MM,
      distance: distanceOf(mark),
    })),
    wordWidthMm('+9'),
    ownPaths === paths ? avoided.slice(0, 1) : avoided,
  );
  return [
    ...standing.map(signShape),
    ...named.flatMap((mark, i): Shape[] => {
      const at = placed.words[i] ?? null;
      if (at === null) return [];
      const isFar = at.x !== mark.x && Math.abs(at.y - mark.y) > FAR_HEIGHTS * WORD_MM;
      const side = Math.sign(at.x - mark.x);
      return [
        ...(isFar
          ? [
              {
                kind: 'line',
                x1: mark.x,
                y1: mark.y,
                x2: at.x - (side * wordWidthMm(mark.words)) / 2,
                y2: at.y,
                stroke: { colour: inkOf(mark), widthMm: LEADER_MM },
              } as const,
            ]
          : []),
        wordShape(mark.words, at.x, at.y, inkOf(mark)),
      ];
    }),
    ...placed.counts.map(({ count, at }) => wordShape(`+${String(count)}`, at.x, at.y, INK)),
  ];
}

/** Words with their middle at a place; begun at its left, so that a wider face runs to one side only. */
export function wordShape(words: string, x: number, y: number, colour: string): Shape {
  return {
    kind: 'text',
    x: x - wordWidthMm(words) / 2 + INSET_MM,
    y: y + TEXT_MM * 0.35,
    text: words,
    sizeMm: TEXT_MM,
    anchor: 'start',
    colour,
    halo: true,
  };
}

export const asPlace = ({ x, y, width, height }: Box) => ({ left: x, top: y, width, height });

export const avoidedOf = (path: Path | Avoided): Avoided =>
  'near' in path ? path : { near: (box) => segmentsNear(path, box) };

const lookOf = ({ sign = 'yield' }: PlacedMark) => SIGN_LOOKS[sign];

/** A sign in the colour of its curve has its words in ink: six colours of words are a chequerboard. */
const inkOf = (mark: PlacedMark): string => (mark.colour === undefined ? lookOf(mark).colour : INK);

const distanceOf = (mark: PlacedMark): number => lookOf(mark).sizeMm / 2 + lookOf(mark).upMm + BEYOND_SIGN_MM;

function signBox(mark: PlacedMark): Box {
  const { sizeMm, upMm } = lookOf(mark);
  return { x: mark.x - sizeMm / 2, y: mark.y - sizeMm / 2 - upMm, width: sizeMm, height: sizeMm };
}

function signShape(mark: PlacedMark): Shape {
  const { form, sizeMm, strokeMm, colour, fill } = lookOf(mark);
  return {
    kind: 'marker',
    form,
    x: mark.x,
    y: mark.y,
    sizeMm,
    stroke: { colour: mark.colour ?? colour, widthMm: strokeMm },
    fill: mark.colour !== undefined && fill !== 'none' ? mark.colour : fill,
  };
}
