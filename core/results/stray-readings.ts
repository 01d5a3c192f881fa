/** Single readings of the extension that stray far from both neighbours and are back at once. */
import { BLOCK_READINGS, type RecordBlocks } from '../curve/record-blocks.ts';

/** Strain that a stray reading is away from both neighbours. */
const STRAY_STRAIN = 0.002;
/** With more stray readings than this the channel is noise, and nothing is set aside. */
export const STRAYS_MAX = 20;

/** Indices, ascending; empty for a channel that is nothing but noise. */
export function strayReadings({ extension, twiceArea }: RecordBlocks, factor: number): number[] {
  if (extension === undefined) return [];
  const { column, smallest, largest } = extension;
  const away = STRAY_STRAIN / factor;
  const strays: number[] = [];
  for (let k = 0; k < twiceArea.length; k++) {
    // The neighbours of a stray at the edge lie in the stretch beside.
    const low = Math.min(smallest[k] as number, smallest[k - 1] ?? Infinity, smallest[k + 1] ?? Infinity);
    const high = Math.max(largest[k] as number, largest[k - 1] ?? -Infinity, largest[k + 1] ?? -Infinity);
    if (!(high - low > away)) continue;
    const to = Math.min(column.length, (k + 1) * BLOCK_READINGS);
    for (let i = k * BLOCK_READINGS; i < to; i++) {
      if (!isStray(column, i, away)) continue;
      if (strays.length === STRAYS_MAX) return [];
      strays.push(i);
    }
  }
  return strays;
}

/** Out and back: both neighbours lie on the same side, far away, and near each other. */
function isStray(column: Float64Array, index: number, away: number): boolean {
  const value = column[index] as number;
  if (value !== value) return false;
  const before = neighbour(column, index, -1);
  const after = neighbour(column, index, 1);
  const out = value - before;
  const back = value - after;
  const far = (out > away && back > away) || (out < -away && back < -away);
  return far && Math.abs(out - back) < Math.abs(out) / 2;
}

/** The next reading that is there, within a few; NaN where there is none. */
function neighbour(column: Float64Array, index: number, direction: -1 | 1): number {
  for (let k = 1; k <= 8; k++) {
    const value = column[index + direction * k];
    if (value === undefined || value === value) return value ?? Number.NaN;
  }
  return Number.NaN;
}
