/** Finds room for the words beside marks, so that none is written over another. Plain geometry, in any one unit. */
import { segmentsCrossBox } from './path-crosses-box.ts';

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface LabelPlace {
  /** Middle of the word. */
  readonly x: number;
  readonly y: number;
}

/** A curve that words should leave to be seen. */
export interface Avoided {
  /** Its stretches that come near a box, each as x1, y1, x2, y2. */
  readonly near: (around: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  }) => readonly number[];
}

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.left + b.width &&
  b.left < a.left + a.width &&
  a.top < b.top + b.height &&
  b.top < a.top + a.height;

const inside = (box: Box, bounds: Box): boolean =>
  box.left >= bounds.left &&
  box.top >= bounds.top &&
  box.left + box.width <= bounds.left + bounds.width &&
  box.top + box.height <= bounds.top + bounds.height;

/** Rows of words stacked beside a mark where the places around it are taken. */
const STACKED_MAX = 5;

export class LabelPlaces {
  readonly #bounds: Box;
  readonly #taken: Box[] = [];

  constructor(bounds: Box) {
    this.#bounds = bounds;
  }

  /** Keeps a place free of words: a mark's sign, something that is written already. */
  reserve(box: Box): void {
    this.#taken.push(box);
  }

  /**
   * The first free place around a mark: above, right, left, below, the corners, then stacked further out. Null
   * where all are taken; the mark then stands without its word, which the table of key values has.
   */
  place(
    markX: number,
    markY: number,
    width: number,
    height: number,
    distance: number,
    avoided: readonly Avoided[] = [],
  ): LabelPlace | null {
    const free = placesAround(width, height, distance)
      .map(([dx, dy]) => ({
        dx,
        dy,
        left: markX + dx - width / 2,
        top: markY + dy - height / 2,
        width,
        height,
      }))
      .filter((box) => inside(box, this.#bounds) && !this.#taken.some((other) => overlap(box, other)));
    // Long curves are looked through only for words that have room at all: of a thousand gaps few do.
    if (free.length === 0) return null;
    const reachX = width + distance;
    const reachY = distance + (STACKED_MAX + 1) * height;
    const around = { x: markX - reachX, y: markY - reachY, width: 2 * reachX, height: 2 * reachY };
    const near = avoided.map((curve) => curve.near(around)).filter((segments) => segments.length > 0);
    for (const { dx, dy, ...box } of free) {
      const asBox = { x: box.left, y: box.top, width, height };
      if (near.some((segments) => segmentsCrossBox(segments, asBox))) continue;
      this.#taken.push(box);
      return { x: markX + dx, y: markY + dy };
    }
    return null;
  }
}

/** Middles of a word from the middle of its mark, the best first. */
function placesAround(
  width: number,
  height: number,
  distance: number,
): readonly (readonly [number, number])[] {
  const aside = width / 2 + distance;
  const stacked = Array.from({ length: STACKED_MAX }, (_, i) => distance + (i + 1) * height);
  return [
    [0, -distance],
    [aside, 0],
    [-aside, 0],
    [0, distance + height * 0.3],
    [aside, -distance],
    [-aside, -distance],
    [aside, distance],
    [-aside, distance],
    ...stacked.flatMap((away) => [
      [aside, -away] as const,
      [aside, away] as const,
      [-aside, -away] as const,
      [-aside, away] as const,
    ]),
  ];
}

/** A word that wants to stand beside its mark. */
export interface Word {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly distance: number;
}

export interface PlacedWords {
  /** Place of each word, in their order; null where it is counted instead. */
  readonly words: readonly (LabelPlace | null)[];
  /** Words without a place of their own, by the neighbourhood of their marks, and where their number stands. */
  readonly counts: readonly { readonly count: number; readonly at: LabelPlace }[];
}

/** Marks closer than this many heights of a word share one number. */
const NEIGHBOURS_HEIGHTS = 4;

/**
 * Places words that come first in order first. Those for which there is no room are not written over others: their
 * number ("+2") stands beside their marks once, where that has room.
 */
export function placeWords(
  labels: LabelPlaces,
  wanted: readonly Word[],
  countWidth: number,
  /** Curves to keep off, the strictest wish first; what has no place so is placed as if there were none. */
  avoided: readonly (readonly Avoided[])[] = [],
): PlacedWords {
  const words = wanted.map((w) => {
    for (const curves of [...avoided, []]) {
      const at = labels.place(w.x, w.y, w.width, w.height, w.distance, curves);
      if (at !== null) return at;
    }
    return null;
  });
  let left = wanted.filter((_, i) => words[i] === null);
  const counts: { count: number; at: LabelPlace }[] = [];
  for (let first = left[0]; first !== undefined; first = left[0]) {
    const { x, y, height, distance } = first;
    const near = (w: Word): boolean => Math.hypot(w.x - x, w.y - y) <= NEIGHBOURS_HEIGHTS * height;
    const count = left.filter(near).length;
    left = left.filter((w) => !near(w));
    const at = labels.place(x, y, countWidth, height, distance);
    if (at !== null) counts.push({ count, at });
  }
  return { words, counts };
}
