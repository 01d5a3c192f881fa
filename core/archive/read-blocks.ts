/** Reading blocks back, block after block: never a whole long pull in memory at once. */
import { z } from 'zod';
import type { Reading } from '../contract/reading.ts';
import type { TimedReading } from '../pull/reading-columns.ts';
import { ColumnRoom } from './codec/column-room.ts';
import { unpack } from './codec/packing.ts';
import { type RawChunk, decodeChunkTable, decodeChunkTimes, splitBytes } from './codec/raw-block.ts';
import { type ReadingBlockColumns, decodeReadingColumns, decodeReadings } from './codec/reading-block.ts';
import { BlockDamagedError } from './codec/varint.ts';
import { type Connection, allRows, oneRow, sqlBlob, sqlInteger } from './sql.ts';

const rawRow = z.object({
  first_chunk: sqlInteger,
  chunk_count: sqlInteger,
  byte_count: sqlInteger,
  table_packing: sqlInteger,
  chunk_table: sqlBlob,
  packing: sqlInteger,
  body: sqlBlob,
  sha256: sqlBlob,
});
const tableRow = rawRow.omit({ body: true, packing: true, sha256: true });
const readingRow = z.object({
  first_seq: sqlInteger,
  reading_count: sqlInteger,
  packing: sqlInteger,
  body: sqlBlob,
});
const key = z.object({ k: sqlInteger });

export interface ReadRange {
  readonly from: number;
  /** Exclusive. */
  readonly to: number;
}
const ALL: ReadRange = { from: 0, to: Number.MAX_SAFE_INTEGER };

export interface RawBlock {
  readonly chunks: readonly RawChunk[];
  readonly bytes: Uint8Array;
  /** As kept beside the block. */
  readonly sha256: Uint8Array;
}

/** Raw blocks that have a chunk in the range, in order. Throws a BlockDamagedError on a damaged one. */
export function* rawBlocks(
  connection: Connection,
  pullId: number,
  range: ReadRange = ALL,
): Generator<RawBlock> {
  const keys = allRows(
    connection,
    key,
    `SELECT first_chunk AS k FROM raw_block
     WHERE pull_id = ? AND first_chunk < ? AND first_chunk + chunk_count > ? ORDER BY first_chunk`,
    pullId,
    range.to,
    range.from,
  );
  for (const { k } of keys) {
    const row = oneRow(
      connection,
      rawRow,
      'SELECT * FROM raw_block WHERE pull_id = ? AND first_chunk = ?',
      pullId,
      k,
    );
    if (row === null) throw new BlockDamagedError(`raw block ${k} is missing`);
    const bytes = unpack(row.body, row.packing);
    if (bytes.length !== row.byte_count)
      throw new BlockDamagedError(`raw block ${k} has ${bytes.length} bytes and not ${row.byte_count}`);
    const chunks = splitBytes(row.first_chunk, tableOf(row, decodeChunkTable), bytes);
    yield { chunks, bytes, sha256: row.sha256 };
  }
}

function tableOf<T extends { readonly length: number }>(
  row: z.infer<typeof tableRow>,
  decode: (bytes: Uint8Array) => T,
): T {
  const table = decode(unpack(row.chunk_table, row.table_packing));
  if (table.length !== row.chunk_count)
    throw new BlockDamagedError(
      `raw block ${row.first_chunk} has ${table.length} chunks and not ${row.chunk_count}`,
    );
  return table;
}

/** When the chunks of a stretch came. */
export interface ChunkTimes {
  readonly firstChunk: number;
  /** µs since the record began; the first is that of `firstChunk`. */
  readonly elapsedUs: Float64Array;
}

/** Times of the chunks of the range, and of those that share a block with them. */
export function chunkTimes(
  connection: Connection,
  pullId: number,
  range: ReadRange,
  /** Times of the raw blocks of the call before, by their first chunk: one that is in both ranges is decoded once. */
  decoded = new Map<number, Float64Array>(),
): ChunkTimes {
  const rows = allRows(
    connection,
    tableRow,
    `SELECT first_chunk, chunk_count, byte_count, table_packing, chunk_table FROM raw_block
     WHERE pull_id = ? AND first_chunk < ? AND first_chunk + chunk_count > ? ORDER BY first_chunk`,
    pullId,
    range.to,
    range.from,
  );
  const firstChunk = rows[0]?.first_chunk ?? range.from;
  const tables = rows.map((row) => decoded.get(row.first_chunk) ?? tableOf(row, decodeChunkTimes));
  decoded.clear();
  for (const [i, table] of tables.entries()) decoded.set(rows[i]?.first_chunk ?? 0, table);
  const elapsedUs = new Float64Array(tables.reduce((sum, table) => sum + table.length, 0));
  let filled = 0;
  for (const [i, table] of tables.entries()) {
    if (rows[i]?.first_chunk !== firstChunk + filled)
      throw new BlockDamagedError(`raw block ${firstChunk + filled} is missing`);
    elapsedUs.set(table, filled);
    filled += table.length;
  }
  return { firstChunk, elapsedUs };
}

/** The time of one chunk; throws a BlockDamagedError where it is missing. */
export function timeOfChunk({ firstChunk, elapsedUs }: ChunkTimes, chunkSeq: number): number {
  const time = elapsedUs[chunkSeq - firstChunk];
  if (time === undefined) throw new BlockDamagedError(`a reading names chunk ${chunkSeq}, which is missing`);
  return time;
}

interface RawReadingBlock {
  readonly firstSeq: number;
  readonly readingCount: number;
  readonly bytes: Uint8Array;
}

/** Blocks of readings that have one in the range, in order, whole and unpacked. */
function* packedBlocks(connection: Connection, pullId: number, range: ReadRange): Generator<RawReadingBlock> {
  const keys = allRows(
    connection,
    key,
    `SELECT first_seq AS k FROM reading_block
     WHERE pull_id = ? AND first_seq < ? AND first_seq + reading_count > ? ORDER BY first_seq`,
    pullId,
    range.to,
    range.from,
  );
  for (const { k } of keys) {
    const row = oneRow(
      connection,
      readingRow,
      'SELECT first_seq, reading_count, packing, body FROM reading_block WHERE pull_id = ? AND first_seq = ?',
      pullId,
      k,
    );
    if (row === null) throw new BlockDamagedError(`block of readings ${k} is missing`);
    yield {
      firstSeq: row.first_seq,
      readingCount: row.reading_count,
      bytes: unpack(row.body, row.packing),
    };
  }
}

function checkCount({ firstSeq, readingCount }: RawReadingBlock, count: number): void {
  if (count !== readingCount)
    throw new BlockDamagedError(
      `block of readings ${firstSeq} has ${count} readings and not ${readingCount}`,
    );
}

export interface ReadingBlock {
  readonly firstSeq: number;
  readonly readings: readonly Reading[];
}

/** Blocks of readings that have one in the range, in order, whole. */
export function* readingBlocks(
  connection: Connection,
  pullId: number,
  range: ReadRange = ALL,
): Generator<ReadingBlock> {
  for (const block of packedBlocks(connection, pullId, range)) {
    const readings = decodeReadings(block.bytes);
    checkCount(block, readings.length);
    yield { firstSeq: block.firstSeq, readings };
  }
}

export interface ColumnBlock {
  readonly firstSeq: number;
  readonly columns: ReadingBlockColumns;
  /** The time of each reading, µs since the record began. */
  readonly elapsedUs: Float64Array;
}

/**
 * The same as columns, with times: for whole curves, without an object a reading. A block's columns are good until the
 * next one is asked for.
 */
export function* columnBlocks(
  connection: Connection,
  pullId: number,
  range: ReadRange = ALL,
): Generator<ColumnBlock> {
  const room = new ColumnRoom();
  const decoded = new Map<number, Float64Array>();
  for (const block of packedBlocks(connection, pullId, range)) {
    room.clear();
    const columns = decodeReadingColumns(block.bytes, room);
    checkCount(block, columns.count);
    const { chunkSeqs } = columns;
    const ofBlock = { from: chunkSeqs[0] ?? 0, to: (chunkSeqs.at(-1) ?? 0) + 1 };
    const times = chunkTimes(connection, pullId, ofBlock, decoded);
    yield {
      firstSeq: block.firstSeq,
      columns,
      elapsedUs: timesOfChunks(times, chunkSeqs, room.numbers(columns.count)),
    };
  }
}

/** A time for each, into `own`; throws a BlockDamagedError where one is missing. */
function timesOfChunks(times: ChunkTimes, chunkSeqs: Float64Array, own: Float64Array): Float64Array {
  const { firstChunk, elapsedUs } = times;
  for (let i = 0; i < own.length; i++) {
    const chunkSeq = chunkSeqs[i] ?? Number.NaN;
    own[i] = elapsedUs[chunkSeq - firstChunk] ?? timeOfChunk(times, chunkSeq);
  }
  return own;
}

/** Readings of the range with their times, in order. */
export function* timedReadings(
  connection: Connection,
  pullId: number,
  range: ReadRange = ALL,
): Generator<TimedReading> {
  for (const { firstSeq, readings } of readingBlocks(connection, pullId, range)) {
    const first = readings[0];
    const last = readings.at(-1);
    if (first === undefined || last === undefined) continue;
    const times = chunkTimes(connection, pullId, { from: first.chunkSeq, to: last.chunkSeq + 1 });
    for (const [i, reading] of readings.entries()) {
      const seq = firstSeq + i;
      if (seq >= range.from && seq < range.to)
        yield { seq, elapsedUs: timeOfChunk(times, reading.chunkSeq), reading };
    }
  }
}
