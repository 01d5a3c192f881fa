/** One look over the extension: its extremes, and single readings that stray far and are back at once. */
import type { Channel } from '../curve/channel.ts';

export interface StrainScan {
  readonly smallest: number;
  readonly largest: number;
  /** Indices of single stray readings, ascending; empty for a channel that is nothing but noise. */
  readonly strays: readonly number[];
}

/** Strain that a stray reading is away from both neighbours. */
const STRAY_STRAIN = 0.002;
/** With more stray readings than this the channel is noise, and nothing is set aside. */
export const STRAYS_MAX = 20;

export function scanStrain({ column, factor }: Channel): StrainScan {
  const away = STRAY_STRAIN / factor;
  const strays: number[] = [];
  let smallest = Infinity;
  let largest = -Infinity;
  let before = Number.NaN;
  let middle = Number.NaN;
  let middleIndex = -1;
  for (let i = 0; i < column.length; i++) {
    const value = column[i] as number;
    if (value !== value) continue;
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
    const out = middle - before;
    const back = middle - value;
    // Out and back: both neighbours lie on the same side, far away, and near each other.
    const strayed = (out > away && back > away) || (out < -away && back < -away);
    if (strayed && Math.abs(out - back) < Math.abs(out) / 2) strays.push(middleIndex);
    else before = middle;
    middle = value;
    middleIndex = i;
    if (strays.length > STRAYS_MAX) return { ...extremes(column), strays: [] };
  }
  return { smallest, largest, strays };
}

function extremes(column: Float64Array): { smallest: number; largest: number } {
  let smallest = Infinity;
  let largest = -Infinity;
  for (let i = 0; i < column.length; i++) {
    const value = column[i] as number;
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
  }
  return { smallest, largest };
}
