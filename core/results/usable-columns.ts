/**
 * The columns as they can be used: numbers that no channel shows are taken as absent, spikes of the load and stray
 * readings of the extension are set aside. Only then is a column copied; the record itself is never touched.
 */
import type { Channel } from '../curve/channel.ts';
import { BLOCK_READINGS, type RecordBlocks, recordBlocks } from '../curve/record-blocks.ts';
import type { RecordColumns } from './record-columns.ts';
import { type RecordScan, SPIKE_GROUPS_MAX, scanRecord, spikeAround } from './record-scan.ts';
import { type UnitStep, unitStep } from './unit-step.ts';
import { strayReadings } from './stray-readings.ts';

/** No channel of a tension test shows more; a larger number is a fault of the readout, and sums would overflow. */
export const MAGNITUDE_MAX = 1e12;

/** Extension within this strain of its first reading is steady over a stretch of readings. */
const STEADY_STRAIN = 0.0004;

export interface UsableColumns {
  readonly columns: RecordColumns;
  readonly load: Channel;
  readonly blocks: RecordBlocks;
  readonly scan: RecordScan;
  /** Readings of the extension that were set aside. */
  readonly strays: readonly number[];
  /** True where numbers beyond MAGNITUDE_MAX were taken as absent. */
  readonly impossible: boolean;
  /** Where the load goes on in another unit; null where it doesn't. */
  readonly unitStep: UnitStep | null;
}

/** Null where the record has no load channel. `markedIndex`: nothing after it counts. */
export function usableColumns(columns: RecordColumns, markedIndex: number | null): UsableColumns | null {
  const load = columns.force ?? columns.stress;
  if (load === undefined) return null;
  const counted = markedIndex === null ? columns.length : markedIndex + 1;
  let ys = load.column;
  let xs = columns.strain?.column;
  const width = STEADY_STRAIN / (columns.strain?.factor ?? 1);
  let blocks = recordBlocks(ys, xs, width);
  const impossible = holdsImpossible(blocks);
  if (impossible) {
    ys = withoutImpossible(ys);
    xs = xs === undefined ? undefined : withoutImpossible(xs);
    blocks = recordBlocks(ys, xs, width);
  }
  const strays = columns.strain === undefined ? [] : strayReadings(blocks, columns.strain.factor);
  if (strays.length > 0 && xs !== undefined) {
    xs = withoutIndices(xs, strays);
    blocks = recordBlocks(ys, xs, width);
  }
  let scan = scanRecord(blocks, counted);
  for (let group = 0; group < SPIKE_GROUPS_MAX; group++) {
    const found = spikeAround(ys, scan);
    if (found.length === 0) break;
    ys = withoutIndices(ys, found);
    blocks = recordBlocks(ys, xs, width);
    const spikes = [...scan.spikes, ...found].sort((a, b) => a - b);
    scan = scanRecord(blocks, counted, spikes);
  }
  const used = withColumns(columns, load, ys, xs);
  return {
    ...used,
    blocks,
    scan,
    strays,
    impossible,
    unitStep: unitStep(used.load, blocks.load, used.columns.strain),
  };
}

function withColumns(
  columns: RecordColumns,
  load: Channel,
  ys: Float64Array,
  xs: Float64Array | undefined,
): Pick<UsableColumns, 'columns' | 'load'> {
  const replaced = (channel: Channel): Channel =>
    channel.column === load.column ? { ...channel, column: ys } : channel;
  return {
    load: replaced(load),
    columns: {
      ...columns,
      ...(columns.force === undefined ? {} : { force: replaced(columns.force) }),
      ...(columns.stress === undefined ? {} : { stress: replaced(columns.stress) }),
      ...(columns.strain === undefined || xs === undefined
        ? {}
        : { strain: { ...columns.strain, column: xs } }),
    },
  };
}

/** Looks closer only where the area of a stretch is none or far too large, as one impossible reading makes it. */
function holdsImpossible({ load, extension, twiceArea }: RecordBlocks): boolean {
  for (let k = 0; k < twiceArea.length; k++) {
    if (Math.abs(twiceArea[k] as number) < MAGNITUDE_MAX) continue;
    const to = Math.min(load.column.length, (k + 1) * BLOCK_READINGS);
    for (let i = k * BLOCK_READINGS; i < to; i++)
      if (isImpossible(load.column[i]) || isImpossible(extension?.column[i])) return true;
  }
  return false;
}

const isImpossible = (value: number | undefined): boolean =>
  value !== undefined && Math.abs(value) > MAGNITUDE_MAX;

const withoutImpossible = (column: Float64Array): Float64Array =>
  column.map((value) => (Math.abs(value) > MAGNITUDE_MAX ? Number.NaN : value));

function withoutIndices(column: Float64Array, indices: readonly number[]): Float64Array {
  const copy = column.slice();
  for (const index of indices) copy[index] = Number.NaN;
  return copy;
}
