/** Readings of a pull as columns in the core's units, and as the curve that an evaluation takes. */
import { CHANNEL_STATUSES, type ReadingColumns } from '../contract/reading.ts';
import type { Curve, CurveGap } from '../curve/curve.ts';
import type { ReadoutChannel } from '../contract/readout-profile.ts';
import { ChannelConverter } from '../pull/channel-value.ts';
import { loadChannel, showsPeakOnly } from '../pull/peak-only.ts';
import { isClock } from '../pull/readout-clock.ts';
import { columnsOf, convertersOf } from '../pull/reading-columns.ts';
import type { ChannelBlockColumns } from './codec/reading-block.ts';
import { type ReadRange, columnBlocks, timedReadings } from './read-blocks.ts';
import { channelsOf, extentOf, gapsOf, pullRowOf, zerosOf } from './pull-reader.ts';
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
  const converters = convertersOf(channelsOf(connection, row), zerosOf(connection, pullId));
  const { readings: total } = extentOf(connection, pullId);
  const range = { from: fromSeq, to: Math.max(fromSeq, Math.min(fromSeq + count, total)) };
  return {
    total,
    columns: shown
      ? columnsOf([...timedReadings(connection, pullId, range)], converters, { firstSeq: fromSeq, shown })
      : valueColumns(connection, pullId, range, converters),
  };
}

/** One for each channel of a pull, in its order, with the zeros that were taken. */
export function convertedChannels(connection: Connection, pullId: number): ChannelConverter[] {
  return convertersOf(channelsOf(connection, pullRowOf(connection, pullId)), zerosOf(connection, pullId));
}

/** The same as `columnsOf` of these readings, without an object a reading: what a picture of a long pull is drawn from. */
function valueColumns(
  connection: Connection,
  pullId: number,
  range: ReadRange,
  converters: readonly ChannelConverter[],
): ReadingColumns {
  const count = range.to - range.from;
  const columns = {
    firstSeq: range.from,
    count,
    elapsedUs: new Float64Array(count),
    chunkSeq: new Float64Array(count),
    status: new Uint8Array(count),
    channels: converters.map(({ info: { key, quantity, coreUnit } }) => ({
      key,
      quantity,
      coreUnit,
      value: new Float64Array(count),
      status: new Uint8Array(count),
    })),
  };
  for (const { firstSeq, columns: block, elapsedUs } of columnBlocks(connection, pullId, range)) {
    const from = Math.max(range.from - firstSeq, 0);
    const to = Math.min(range.to - firstSeq, block.count);
    const at = firstSeq + from - range.from;
    columns.elapsedUs.set(elapsedUs.subarray(from, to), at);
    columns.chunkSeq.set(block.chunkSeqs.subarray(from, to), at);
    columns.status.set(block.statuses.subarray(from, to), at);
    for (const [index, converter] of converters.entries()) {
      const shown = block.channels[index];
      const into = columns.channels[index];
      if (shown === undefined || into === undefined)
        throw new RangeError(`reading ${firstSeq} has no channel ${index}`);
      const part = partOf(shown, from, to);
      fillColumn(into.value, at, part, converter);
      into.status.set(part.statuses, at);
    }
  }
  return columns;
}

const partOf = (channel: ChannelBlockColumns, from: number, to: number): ChannelBlockColumns => ({
  ...channel,
  mantissas: channel.mantissas.subarray(from, to),
  exponents: channel.exponents.subarray(from, to),
  units: channel.units.subarray(from, to),
  statuses: channel.statuses.subarray(from, to),
});

const CURVE_COLUMN = {
  force: 'forceN',
  extension: 'extensionMm',
  travel: 'travelMm',
  stress: 'stressMpa',
  strain: 'strainRatio',
} as const;

/** Where the time of a curve comes from; said wherever the curve is handed out. */
export type CurveTime = 'readout' | 'arrival';

export interface TimedCurve {
  readonly curve: Curve;
  readonly timeFrom: CurveTime;
}

/**
 * The whole pull as a curve: the first channel of each quantity, gaps where they were. Time is the readout's own
 * clock where every line carries it, otherwise the arrival on the record's clock.
 */
export function curveOf(connection: Connection, pullId: number): TimedCurve {
  const row = pullRowOf(connection, pullId);
  const { readings: length } = extentOf(connection, pullId);
  const channels = channelsOf(connection, row);
  const converters = convertersOf(channels, zerosOf(connection, pullId));
  const arrivalS = new Float64Array(length);
  const columns = converters.map(() => new Float64Array(length));
  const clockIndex = channels.findIndex(({ quantity, peak }) => quantity === 'time' && !peak);
  for (const { firstSeq, columns: block, elapsedUs } of columnBlocks(connection, pullId)) {
    if (firstSeq === 0)
      startClockAtZero(converters, clockIndex, channels[clockIndex], block.channels[clockIndex]);
    fillSeconds(arrivalS, firstSeq, elapsedUs);
    for (const [index, converter] of converters.entries()) {
      const shown = block.channels[index];
      const column = columns[index];
      if (shown !== undefined && column !== undefined) fillColumn(column, firstSeq, shown, converter);
    }
  }
  const named: { -readonly [K in (typeof CURVE_COLUMN)[keyof typeof CURVE_COLUMN]]?: Float64Array } = {};
  channels.forEach(({ quantity, peak }, index) => {
    // A readout's own peak memory is no curve.
    if (peak || quantity === 'time' || quantity === 'other') return;
    const column = columns[index];
    if (column !== undefined) named[CURVE_COLUMN[quantity]] ??= column;
  });
  const peakColumn = showsPeakOnly(channels) ? columns[loadChannel(channels)] : undefined;
  const stamps = columns[clockIndex];
  // Rows of a file did not arrive one after the other: their time is what the file says, or none.
  const isFile = row.source_json.kind === 'imported';
  const clock = stamps !== undefined && (isFile || isClock(stamps)) ? stamps : null;
  const timeS = clock ?? (isFile ? undefined : arrivalS);
  return {
    curve: {
      length,
      ...(timeS === undefined ? {} : { timeS }),
      ...named,
      ...(peakColumn === undefined ? {} : { peakForceN: peakColumn }),
      gaps: curveGaps(connection, pullId, (arrivalS.at(-1) ?? 0) * 1e6),
    },
    timeFrom: clock === null ? 'arrival' : 'readout',
  };
}

function fillSeconds(arrivalS: Float64Array, firstSeq: number, elapsedUs: Float64Array): void {
  let us = Number.NaN;
  let s = Number.NaN;
  for (let i = 0; i < elapsedUs.length; i++) {
    const its = elapsedUs[i] ?? Number.NaN;
    // Readings of one chunk came at the same time.
    if (its !== us) {
      us = its;
      s = its / 1e6;
    }
    arrivalS[firstSeq + i] = s;
  }
}

/** The first stamp is taken off like a zero: exactly, before anything is rounded. */
function startClockAtZero(
  converters: ChannelConverter[],
  index: number,
  channel: ReadoutChannel | undefined,
  shown: ChannelBlockColumns | undefined,
): void {
  const mantissa = shown?.mantissas[0] ?? Number.NaN;
  const unit = shown?.unitList[shown.units[0] ?? -1];
  if (channel === undefined || Number.isNaN(mantissa) || unit === undefined) return;
  const first = new ChannelConverter(channel).exact(mantissa, shown?.exponents[0] ?? 0, unit);
  converters[index] = new ChannelConverter(channel, first);
}

/** Values in the core's unit into `column` from `firstSeq` on; NaN where the readout gave none. */
export function fillColumn(
  column: Float64Array,
  firstSeq: number,
  { mantissas, exponents, unitList, units, statuses, even }: ChannelBlockColumns,
  converter: ChannelConverter,
): void {
  for (let from = 0; from < mantissas.length;) {
    const [unit, exponent, status] = [units[from], exponents[from], statuses[from]];
    let to = even ? mantissas.length : from + 1;
    while (
      to < mantissas.length &&
      units[to] === unit &&
      exponents[to] === exponent &&
      statuses[to] === status
    )
      to++;
    const into = column.subarray(firstSeq + from, firstSeq + to);
    const symbol = unitList[unit ?? -1];
    if (status !== STATUS_OK || symbol === undefined) into.fill(Number.NaN);
    else converter.convertColumn(mantissas.subarray(from, to), exponent ?? 0, symbol, into);
    from = to;
  }
}
const STATUS_OK = CHANNEL_STATUSES.indexOf('ok');

/** One that nothing ended lasts to the last reading. */
function curveGaps(connection: Connection, pullId: number, lastUs: number): CurveGap[] {
  return gapsOf(connection, pullId).map((gap) => ({
    beforeIndex: gap.beforeSeq,
    durationS: Math.max(0, (gap.toElapsedUs ?? lastUs) - gap.fromElapsedUs) / 1e6,
    cause: gap.words,
    ...(gap.instrument === 1 ? { ofSecond: true as const } : {}),
  }));
}
