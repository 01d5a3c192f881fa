/**
 * The columns as they can be used: numbers that no channel shows are taken as absent, spikes of the load and stray
 * readings of the extension are set aside. Only then is a column copied; the record itself is never touched.
 */
import type { Channel } from '../curve/channel.ts';
import type { RecordColumns } from './record-columns.ts';
import { type RecordScan, scanRecord } from './record-scan.ts';
import { scanStrain } from './strain-scan.ts';

/** No channel of a tension test shows more; a larger number is a fault of the readout, and sums would overflow. */
export const MAGNITUDE_MAX = 1e12;

export interface UsableColumns {
  readonly columns: RecordColumns;
  readonly load: Channel;
  readonly scan: RecordScan;
  /** Readings of the extension that were set aside. */
  readonly strays: readonly number[];
  /** True where numbers beyond MAGNITUDE_MAX were taken as absent. */
  readonly impossible: boolean;
}

/** Null where the record has no load channel. `markedIndex`: nothing after it counts. */
export function usableColumns(columns: RecordColumns, markedIndex: number | null): UsableColumns | null {
  const load = columns.force ?? columns.stress;
  if (load === undefined) return null;
  const counted = markedIndex === null ? columns.length : markedIndex + 1;
  const first = scanRecord(load.column.subarray(0, counted));
  const wild = first.largest > MAGNITUDE_MAX || first.smallest < -MAGNITUDE_MAX;
  let column = wild ? withoutImpossible(load.column) : load.column;
  const scan = wild ? scanRecord(column.subarray(0, counted)) : first;
  if (scan.spikes.length > 0) column = withoutIndices(column, scan.spikes);
  const strain = usableStrain(columns.strain);
  const replaced = (channel: Channel): Channel =>
    channel.column === load.column ? { ...channel, column } : channel;
  return {
    load: replaced(load),
    scan,
    strays: strain.strays,
    impossible: wild || strain.impossible,
    columns: {
      ...columns,
      ...(columns.force === undefined ? {} : { force: replaced(columns.force) }),
      ...(columns.stress === undefined ? {} : { stress: replaced(columns.stress) }),
      ...(strain.channel === undefined ? {} : { strain: strain.channel }),
    },
  };
}

function usableStrain(strain: Channel | undefined): {
  readonly channel?: Channel;
  readonly strays: readonly number[];
  readonly impossible: boolean;
} {
  if (strain === undefined) return { strays: [], impossible: false };
  const first = scanStrain(strain);
  const impossible = first.largest > MAGNITUDE_MAX || first.smallest < -MAGNITUDE_MAX;
  const column = impossible ? withoutImpossible(strain.column) : strain.column;
  const { strays } = impossible ? scanStrain({ ...strain, column }) : first;
  return {
    channel: { ...strain, column: strays.length === 0 ? column : withoutIndices(column, strays) },
    strays,
    impossible,
  };
}

const withoutImpossible = (column: Float64Array): Float64Array =>
  column.map((value) => (Math.abs(value) > MAGNITUDE_MAX ? Number.NaN : value));

function withoutIndices(column: Float64Array, indices: readonly number[]): Float64Array {
  const copy = column.slice();
  for (const index of indices) copy[index] = Number.NaN;
  return copy;
}
