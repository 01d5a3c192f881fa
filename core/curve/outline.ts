/**
 * The few thousand readings of a long record that draw the same picture as all of it, in the order of time: what a
 * window shows at once while the whole is still under way. For pictures alone; figures come from the whole.
 */
import { DRAWN_BEFORE_START_S, drawnLength } from './drawn-length.ts';
import { firstPlaceFrom } from './first-place-from.ts';
import { thinCurve } from './thin-curve.ts';
import type { PixelMap } from './thinning.ts';

/** Of so many readings in a row the first, the last and the extremes are looked at further. */
const STRETCH_READINGS = 128;
/** Width and height of the plot that it is made for; a screen shows less. */
const SIDE_PX = 2_048;
/** Corner points of each of its two plots. */
const CORNERS_MAX = 6_000;
/** Readings looked at further; of a record with more (values that come and go) there is no outline. */
const LOOKED_AT_MAX = 400_000;
/** An outline with more would be no quicker than the readings. */
const OUTLINE_READINGS_MAX = 30_000;
/** Marks and edges of gaps; with more there is no outline either. */
const WANTED_MAX = 4_000;

export interface OutlineMarks {
  readonly triggerSeq: number | null;
  readonly breakSeq: number | null;
  /** Readings before which the pen is lifted. */
  readonly lifts: readonly number[];
}

export interface Outline {
  /** Number of each reading in the record, ascending. */
  readonly readings: Float64Array;
  readonly elapsedUs: Float64Array;
  /** N; NaN where there is no value. */
  readonly force: Float64Array;
  /** mm; null where there is neither extension nor travel. */
  readonly along: Float64Array | null;
}

interface Points {
  readonly reading: number[];
  readonly elapsedUs: number[];
  readonly force: number[];
  readonly along: number[];
}

/** Takes a record block by block, so that it never has to be held as a whole. */
export class OutlineMaker {
  readonly #marks: OutlineMarks;
  /** Readings that are kept whatever they are, ascending. */
  readonly #wanted: readonly number[];
  readonly #points: Points = { reading: [], elapsedUs: [], force: [], along: [] };
  #nextWanted = 0;
  #hasAlong = false;

  constructor(marks: OutlineMarks) {
    this.#marks = marks;
    const marked = [marks.triggerSeq, marks.breakSeq, ...marks.lifts].filter((seq) => seq !== null);
    this.#wanted = [...new Set(marked.flatMap((seq) => [seq - 1, seq, seq + 1]))].sort((a, b) => a - b);
  }

  /** The columns of one block are of equal length and in the order of time; `along` is null in every block or in none. */
  take(firstSeq: number, elapsedUs: Float64Array, force: Float64Array, along: Float64Array | null): void {
    this.#hasAlong = along !== null;
    const block = { firstSeq, elapsedUs, force, along: along ?? force };
    for (let from = 0; from < force.length && !this.#isTooMany; from += STRETCH_READINGS)
      this.#takeStretch(block, from, Math.min(force.length, from + STRETCH_READINGS));
  }

  get #isTooMany(): boolean {
    return this.#points.reading.length > LOOKED_AT_MAX || this.#wanted.length > WANTED_MAX;
  }

  #takeStretch(block: Block, from: number, to: number): void {
    const kept = [from, to - 1];
    for (const column of this.#hasAlong ? [block.force, block.along] : [block.force]) {
      for (const at of extremes(column, from, to)) kept.push(at);
      if (isMissingInPart(column, from, to)) for (const at of changesOfPen(column, from, to)) kept.push(at);
    }
    for (let seq = this.#wanted[this.#nextWanted]; seq !== undefined && seq < block.firstSeq + to;) {
      if (seq >= block.firstSeq + from) kept.push(seq - block.firstSeq);
      seq = this.#wanted[++this.#nextWanted];
    }
    const points = this.#points;
    kept.sort((a, b) => a - b);
    for (const [i, at] of kept.entries()) {
      if (at === kept[i - 1]) continue;
      points.reading.push(block.firstSeq + at);
      points.elapsedUs.push(block.elapsedUs[at] ?? Number.NaN);
      points.force.push(block.force[at] ?? Number.NaN);
      points.along.push(block.along[at] ?? Number.NaN);
    }
  }

  /** Null where more than a picture can show had to be kept, or nothing has a load. */
  outline(): Outline | null {
    const { reading } = this.#points;
    if (this.#isTooMany) return null;
    const timeS = Float64Array.from(this.#points.elapsedUs, (us) => us / 1e6);
    const force = Float64Array.from(this.#points.force);
    const along = Float64Array.from(this.#points.along);
    const { triggerSeq, breakSeq, lifts } = this.#marks;
    const placeOf = (seq: number): number => firstPlaceFrom(reading, seq);
    const startS = triggerSeq === null ? -Infinity : (timeS[placeOf(triggerSeq)] ?? 0) - DRAWN_BEFORE_START_S;
    const from = Math.max(
      0,
      timeS.findIndex((s) => s >= startS),
    );
    const to =
      breakSeq === null ? reading.length : drawnLength({ length: reading.length, timeS, forceN: force });
    const isShown = (place: number): boolean => place >= from && place < to;
    const ends = [force, along].flatMap((column) => extremes(column, from, to));
    if (ends.length === 0) return null;
    const places = new Set([from, to - 1, ...this.#wanted.map(placeOf).filter(isShown)]);
    for (const end of ends) for (const at of [end - 1, end, end + 1]) if (isShown(at)) places.add(at);
    const its = {
      length: to - from,
      y: force.subarray(from, to),
      lifts: lifts
        .map((seq) => placeOf(seq) - from)
        .filter((at) => at > 0)
        .sort((a, b) => a - b),
    };
    for (const x of this.#hasAlong ? [timeS, along] : [timeS]) {
      const drawn = { ...its, x: x.subarray(from, to) };
      const thinned = thinCurve(drawn, mapOf(drawn), { cornersMax: CORNERS_MAX });
      for (let i = 0; i < thinned.length; i++) places.add(from + (thinned.reading[i] ?? 0));
    }
    // The first that is missing lifts the pen, as all of them would.
    const isMissing = (place: number): boolean =>
      Number.isNaN(force[place]) || (this.#hasAlong && Number.isNaN(along[place]));
    for (let at = from + 1; at < to; at++) if (isMissing(at) && !isMissing(at - 1)) places.add(at);
    if (places.size > OUTLINE_READINGS_MAX) return null;
    const inOrder = [...places].sort((a, b) => a - b);
    const picked = (column: ArrayLike<number>): Float64Array =>
      Float64Array.from(inOrder, (place) => column[place] ?? Number.NaN);
    return {
      readings: picked(reading),
      elapsedUs: picked(this.#points.elapsedUs),
      force: picked(force),
      along: this.#hasAlong ? picked(along) : null,
    };
  }
}

interface Block {
  readonly firstSeq: number;
  readonly elapsedUs: Float64Array;
  readonly force: Float64Array;
  readonly along: Float64Array;
}

function mapOf({ x, y }: { readonly x: Float64Array; readonly y: Float64Array }): PixelMap {
  const perUnit = (column: Float64Array): number => {
    const [least = 0, most = 0] = extremes(column, 0, column.length).map((at) => column[at] ?? 0);
    return most > least ? SIDE_PX / (most - least) : 1;
  };
  return { xOffset: 0, xPerUnit: perUnit(x), yOffset: 0, yPerUnit: perUnit(y) };
}

/** Places of the least and the largest value; none where there is no value. */
function extremes(column: Float64Array, from: number, to: number): number[] {
  let least = Infinity;
  let most = -Infinity;
  let low = -1;
  let high = -1;
  for (let i = from; i < to; i++) {
    const value = column[i] ?? Number.NaN;
    if (value < least) {
      least = value;
      low = i;
    }
    if (value > most) {
      most = value;
      high = i;
    }
  }
  return low < 0 ? [] : [low, high];
}

function isMissingInPart(column: Float64Array, from: number, to: number): boolean {
  let sum = 0;
  for (let i = from; i < to; i++) sum += column[i] ?? Number.NaN;
  return Number.isNaN(sum);
}

/** Places on both sides of where a value begins to be there, or to be missing. */
function changesOfPen(column: Float64Array, from: number, to: number): number[] {
  const places: number[] = [];
  let before = Number.isNaN(column[from]);
  for (let i = from + 1; i < to; i++) {
    const isMissing = Number.isNaN(column[i]);
    if (isMissing !== before) places.push(i - 1, i);
    before = isMissing;
  }
  return places;
}
