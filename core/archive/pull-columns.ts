/** Readings of a pull as columns in the core's units, and as the curve that an evaluation takes. */
import type { ReadingColumns } from '../contract/reading.ts';
import type { Curve, CurveGap } from '../curve/curve.ts';
import { columnsOf, convertersOf } from '../pull/reading-columns.ts';
import { timedReadings } from './read-blocks.ts';
import { extentOf, gapsOf, pullRowOf, zerosOf } from './pull-reader.ts';
import type { Connection } from './sql.ts';

export interface ColumnsRequest {
  readonly pullId: number;
  readonly fromSeq: number;
  readonly count: number;
  readonly shown: boolean;
}

/** Readings that are in the archive; fewer than asked for where the pull ends. */
export function readColumns(
  connection: Connection,
  { pullId, fromSeq, count, shown }: ColumnsRequest,
): { total: number; columns: ReadingColumns } {
  const row = pullRowOf(connection, pullId);
  const converters = convertersOf(row.profile_json, zerosOf(connection, pullId));
  const readings = [...timedReadings(connection, pullId, { from: fromSeq, to: fromSeq + count })];
  return {
    total: extentOf(connection, pullId).readings,
    columns: columnsOf(readings, converters, { firstSeq: fromSeq, shown }),
  };
}

const CURVE_COLUMN = {
  force: 'forceN',
  extension: 'extensionMm',
  travel: 'travelMm',
  stress: 'stressMpa',
  strain: 'strainRatio',
} as const;

/** The whole pull as a curve: time from the record's clock, the first channel of each quantity, gaps where they were. */
export function curveOf(connection: Connection, pullId: number): Curve {
  const row = pullRowOf(connection, pullId);
  const { readings: length } = extentOf(connection, pullId);
  const converters = convertersOf(row.profile_json, zerosOf(connection, pullId));
  const timeS = new Float64Array(length);
  const columns = converters.map(() => new Float64Array(length));
  for (const { seq, elapsedUs, reading } of timedReadings(connection, pullId)) {
    timeS[seq] = elapsedUs / 1e6;
    for (const [index, converter] of converters.entries()) {
      const value = reading.channels[index];
      const column = columns[index];
      if (value !== undefined && column !== undefined) column[seq] = converter.value(value);
    }
  }
  const named: { -readonly [K in (typeof CURVE_COLUMN)[keyof typeof CURVE_COLUMN]]?: Float64Array } = {};
  row.profile_json.channels.forEach((channel, index) => {
    const { quantity } = channel;
    // A readout's own peak memory is no curve, and its clock is not the record's.
    if (channel.peak || quantity === 'time' || quantity === 'other') return;
    const column = columns[index];
    if (column !== undefined) named[CURVE_COLUMN[quantity]] ??= column;
  });
  return { length, timeS, ...named, gaps: curveGaps(connection, pullId) };
}

function curveGaps(connection: Connection, pullId: number): CurveGap[] {
  return gapsOf(connection, pullId).map((gap) => ({
    beforeIndex: gap.beforeSeq,
    durationS: ((gap.toElapsedUs ?? gap.fromElapsedUs) - gap.fromElapsedUs) / 1e6,
    cause: gap.words,
  }));
}
