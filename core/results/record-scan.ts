/**
 * The whole force (or stress) column at a glance: largest, smallest, how many readings are there; and readings that
 * stand alone far above their neighbours. Such a spike is set aside from the maximum and named, never removed.
 */
import { lastPresent } from '../curve/channel.ts';
import { type RecordBlocks, largestIndex, presentCount } from '../curve/record-blocks.ts';

export interface RecordScan {
  /** Readings that were looked at, from the first. */
  readonly counted: number;
  /** Readings with a value. */
  readonly present: number;
  readonly firstPresent: number;
  readonly lastPresent: number;
  /** Index of the largest trusted value; the first where it occurs more than once. −1 in an empty column. */
  readonly largestIndex: number;
  /** Of every n-th reading of a long record: compression shows in all of them. */
  readonly smallest: number;
  readonly largest: number;
  /** Indices of readings set aside, ascending. */
  readonly spikes: readonly number[];
}

/** A spike is at most this many readings long; a specimen takes longer to load and unload. */
export const SPIKE_READINGS_MAX = 3;
/** More groups of spikes than this, and the channel is noise: then nothing more is set aside. */
export const SPIKE_GROUPS_MAX = 20;
/** Steps that a spike is higher than the steps beside it. */
const SPIKE_STEPS = 8;
/** Part of its own value that a spike stands above its neighbours. */
const SPIKE_HEIGHT = 0.02;
/** Below this, no neighbourhood tells a spike from a coarse record. */
const READINGS_FOR_SPIKES_MIN = 8;

/** Over the first `counted` readings. `spikes`: those already set aside (absent in the column). */
export function scanRecord(
  blocks: RecordBlocks,
  counted: number,
  spikes: readonly number[] = [],
): RecordScan {
  const { column } = blocks.load;
  const range = { from: 0, to: counted };
  const top = largestIndex(blocks.load, range);
  let firstPresent = 0;
  while (firstPresent < counted && Number.isNaN(column[firstPresent])) firstPresent += 1;
  return {
    counted,
    present: presentCount(blocks, range),
    firstPresent: firstPresent < counted ? firstPresent : -1,
    lastPresent: lastPresent(column, counted - 1, 0),
    largestIndex: top,
    smallest: smallestSeen(column, counted),
    largest: top < 0 ? -Infinity : (column[top] as number),
    spikes,
  };
}

const SMALLEST_LOOKS = 4_096;

function smallestSeen(column: Float64Array, counted: number): number {
  const stride = Math.max(1, Math.floor(counted / SMALLEST_LOOKS));
  let smallest = Infinity;
  for (let i = 0; i < counted; i += stride)
    if ((column[i] as number) < smallest) smallest = column[i] as number;
  return smallest;
}

/** The readings of a spike whose highest is at `top`; empty where it is no spike. */
export function spikeAround(column: Float64Array, { largestIndex: top, present }: RecordScan): number[] {
  if (top < 0 || present < READINGS_FOR_SPIKES_MIN) return [];
  const height = column[top] as number;
  const single = beside(column, top, top);
  if (standsAlone(height, single)) return [top];
  let first = top;
  let last = top;
  while (first > 0 && last - first < SPIKE_READINGS_MAX && (column[first - 1] as number) > height / 2)
    first -= 1;
  while (
    last < column.length - 1 &&
    last - first < SPIKE_READINGS_MAX &&
    (column[last + 1] as number) > height / 2
  )
    last += 1;
  if (last - first + 1 > SPIKE_READINGS_MAX || last === first) return [];
  if (!standsAlone(height, beside(column, first, last))) return [];
  return Array.from({ length: last - first + 1 }, (_, k) => first + k);
}

interface Neighbourhood {
  readonly highest: number;
  /** Middle one of the steps between readings next to each other on either side; a break among them doesn't count. */
  readonly step: number;
  readonly readings: number;
}

const NEIGHBOURS = 4;

function beside(column: Float64Array, first: number, last: number): Neighbourhood {
  let highest = -Infinity;
  const steps: number[] = [];
  let readings = 0;
  for (const direction of [-1, 1]) {
    let previous = Number.NaN;
    let i = (direction < 0 ? first : last) + direction;
    for (let seen = 0; seen < NEIGHBOURS && i >= 0 && i < column.length; i += direction) {
      const value = column[i] as number;
      if (Number.isNaN(value)) continue;
      if (seen === 0) highest = Math.max(highest, value);
      if (!Number.isNaN(previous)) steps.push(Math.abs(value - previous));
      previous = value;
      seen += 1;
      readings += 1;
    }
  }
  steps.sort((a, b) => a - b);
  return { highest, step: steps[steps.length >> 1] ?? 0, readings };
}

const standsAlone = (height: number, { highest, step, readings }: Neighbourhood): boolean =>
  readings >= NEIGHBOURS && height - highest > SPIKE_STEPS * step + SPIKE_HEIGHT * Math.abs(height);
