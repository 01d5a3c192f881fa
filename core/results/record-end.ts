/**
 * How the pull ended: the last reading before the break, told by the fall of the force alone (extension is often
 * off or torn away by then), or that the record holds no break.
 */
import type { Channel } from '../curve/channel.ts';
import { lastPresent } from '../curve/channel.ts';
import { type ColumnBlocks, lastAtLeast } from '../curve/record-blocks.ts';

export type RecordEnd =
  /** The force collapsed; `index` is the last reading before that. */
  | { readonly kind: 'collapse'; readonly index: number; readonly lostFraction: number }
  /** The force ran out slowly; `index` is the last reading at 10 % of the maximum or above. */
  | { readonly kind: 'run-out'; readonly index: number }
  /** A person or the recorder marked the break. */
  | { readonly kind: 'marked'; readonly index: number }
  /** The specimen was let off: force and extension went back together. `index` is where that began. */
  | { readonly kind: 'unloaded'; readonly index: number }
  /** The record stops while the specimen still carries load. */
  | { readonly kind: 'stops'; readonly index: number };

/** ASTM E8/E8M takes the elongation at fracture just before the force falls below 10 % of the maximum. */
export const BROKEN_FRACTION = 0.1;
/** Once below this for good, the specimen is taken as broken or breaking. */
export const BREAKING_FRACTION = 0.5;
/** A step belongs to the collapse while it is at least this part of the steepest step. */
const COLLAPSE_STEP_FRACTION = 0.1;
/** A collapse has at least one step as large as this part of the maximum, or takes this part of the readings. */
const COLLAPSE_STEP_MIN = 0.05;
const COLLAPSE_READINGS_FRACTION = 0.01;

export interface RecordEndInput {
  readonly load: Channel;
  readonly blocks: ColumnBlocks;
  readonly strain?: Channel;
  /** Of the maximum. */
  readonly peakIndex: number;
  /** Marked by hand or by the recorder. */
  readonly markedIndex?: number;
}

export function recordEnd({ load, blocks, strain, peakIndex, markedIndex }: RecordEndInput): RecordEnd {
  const { column, zero } = load;
  const peak = (column[peakIndex] as number) - zero;
  if (markedIndex !== undefined && markedIndex >= 0 && markedIndex < column.length)
    return { kind: 'marked', index: lastPresent(column, Math.floor(markedIndex), 0) };
  const last = lastPresent(column, column.length - 1, peakIndex);
  const breaking = zero + BREAKING_FRACTION * peak;
  const broken = zero + BROKEN_FRACTION * peak;
  const lastHigh = lastAtLeast(blocks, { from: peakIndex, to: last + 1 }, breaking);
  let firstBroken = lastHigh + 1;
  while (firstBroken <= last && !((column[firstBroken] as number) < broken)) firstBroken += 1;
  if (firstBroken > last) return letOff(load, strain, peakIndex, last) ?? { kind: 'stops', index: last };

  const collapse = collapseStart(load, peakIndex, firstBroken, peak);
  const quick = firstBroken - collapse.index <= 1 + COLLAPSE_READINGS_FRACTION * peakIndex;
  if (collapse.steepest >= COLLAPSE_STEP_MIN * peak || quick) {
    const before = (column[collapse.index] as number) - zero;
    const after = (column[firstBroken] as number) - zero;
    return { kind: 'collapse', index: collapse.index, lostFraction: (before - after) / peak };
  }
  return (
    letOff(load, strain, peakIndex, firstBroken) ?? {
      kind: 'run-out',
      index: lastPresent(column, firstBroken - 1, peakIndex),
    }
  );
}

/** From the first broken reading back through the steep part, to the last reading before it. */
function collapseStart(
  { column }: Channel,
  peakIndex: number,
  firstBroken: number,
  peak: number,
): { readonly index: number; readonly steepest: number } {
  let index = lastPresent(column, firstBroken - 1, peakIndex);
  let later = column[firstBroken] as number;
  let steepest = 0;
  while (index > peakIndex) {
    const step = (column[index] as number) - later;
    steepest = Math.max(steepest, step);
    const before = lastPresent(column, index - 1, peakIndex);
    if (before < 0) break;
    const stepBefore = (column[before] as number) - (column[index] as number);
    if (stepBefore < COLLAPSE_STEP_FRACTION * steepest || stepBefore < 0.002 * peak) break;
    later = column[index] as number;
    index = before;
  }
  if (index >= 0) steepest = Math.max(steepest, (column[index] as number) - later);
  return { index: index < 0 ? peakIndex : index, steepest };
}

/** Force and extension that go back together: the specimen was let off, not broken. */
function letOff(
  load: Channel,
  strain: Channel | undefined,
  peakIndex: number,
  last: number,
): RecordEnd | null {
  if (strain === undefined) return null;
  const xs = strain.column;
  let farthest = -1;
  for (let i = peakIndex; i <= last; i++)
    if (farthest < 0 ? !Number.isNaN(xs[i]) : (xs[i] as number) > (xs[farthest] as number)) farthest = i;
  const end = lastPresent(xs, last, peakIndex);
  if (farthest < 0 || end <= farthest) return null;
  const loadAt = (i: number): number => (load.column[i] as number) - load.zero;
  const peak = loadAt(peakIndex);
  const fall = (loadAt(farthest) - loadAt(end)) / peak;
  const back = ((xs[farthest] as number) - (xs[end] as number)) * strain.factor;
  // Elastic recovery of steel from 250 MPa is about 0.1 %; a tenth of that is above any noise that matters here.
  return fall > 0.1 && back > LET_OFF_STRAIN_MIN ? { kind: 'unloaded', index: farthest } : null;
}

const LET_OFF_STRAIN_MIN = 1e-4;
