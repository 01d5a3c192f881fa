/** Finds room for the words beside marks, so that none is written over another. Plain geometry, in any one unit. */

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

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.left + b.width &&
  b.left < a.left + a.width &&
  a.top < b.top + b.height &&
  b.top < a.top + a.height;

const inside = (box: Box, bounds: Box): boolean =>
  box.left >= bounds.left &&
  box.top >= bounds.top &&
  box.left + box.width <= bounds.left + bounds.width &&
  box.top + box.height <= bounds.top + bounds.height;

export class LabelPlaces {
  readonly #bounds: Box;
  readonly #taken: Box[] = [];

  constructor(bounds: Box) {
    this.#bounds = bounds;
  }

  /**
   * The first free place around a mark: above, right, left, below, then the corners further out. Null where all
   * are taken; the mark then stands without its word, which the table of key values has.
   */
  place(markX: number, markY: number, width: number, height: number, distance: number): LabelPlace | null {
    const aside = width / 2 + distance;
    const tries: readonly (readonly [number, number])[] = [
      [0, -distance],
      [aside, 0],
      [-aside, 0],
      [0, distance + height * 0.3],
      [aside, -distance],
      [-aside, -distance],
      [aside, distance],
      [-aside, distance],
      [aside, -distance - height],
      [aside, distance + height],
      [aside, distance + 2 * height],
    ];
    for (const [dx, dy] of tries) {
      const box = { left: markX + dx - width / 2, top: markY + dy - height / 2, width, height };
      if (!inside(box, this.#bounds) || this.#taken.some((other) => overlap(box, other))) continue;
      this.#taken.push(box);
      return { x: markX + dx, y: markY + dy };
    }
    return null;
  }
}
