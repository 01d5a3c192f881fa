/**
 * One look over the whole force (or stress) column: largest, smallest, how many readings are there, and readings
 * that stand alone far above their neighbours. Such a spike is set aside from the maximum and named, never removed.
 */

export interface RecordScan {
  /** Readings with a value. */
  readonly present: number;
  readonly firstPresent: number;
  readonly lastPresent: number;
  /** Index of the largest trusted value; the first where it occurs more than once. −1 in an empty column. */
  readonly largestIndex: number;
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

export function scanRecord(column: Float64Array): RecordScan {
  const spikes: number[] = [];
  let scan = scanWithout(column, spikes);
  for (let group = 0; group < SPIKE_GROUPS_MAX; group++) {
    const found = spikeAround(column, scan.largestIndex, scan.present);
    if (found.length === 0) break;
    spikes.push(...found);
    spikes.sort((a, b) => a - b);
    scan = scanWithout(column, spikes);
  }
  return scan;
}

function scanWithout(column: Float64Array, spikes: readonly number[]): RecordScan {
  let present = 0;
  let firstPresent = -1;
  let lastPresent = -1;
  let largestIndex = -1;
  let smallest = Infinity;
  let largest = -Infinity;
  let from = 0;
  for (const stop of [...spikes, column.length]) {
    for (let i = from; i < stop; i++) {
      const value = column[i] as number;
      if (value > largest) {
        largest = value;
        largestIndex = i;
      }
      if (value < smallest) smallest = value;
      if (value === value) present += 1;
    }
    from = stop + 1;
  }
  for (let i = 0; i < column.length && firstPresent < 0; i++)
    if (!Number.isNaN(column[i]) && !spikes.includes(i)) firstPresent = i;
  for (let i = column.length - 1; i >= 0 && lastPresent < 0; i--)
    if (!Number.isNaN(column[i]) && !spikes.includes(i)) lastPresent = i;
  return { present, firstPresent, lastPresent, largestIndex, smallest, largest, spikes };
}

/** The readings of a spike whose highest is at `top`; empty where it is no spike. */
function spikeAround(column: Float64Array, top: number, present: number): number[] {
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
