/**
 * Consecutive chunks of raw bytes, in the order in which they were read: a table (when each came, how long it is,
 * in which opening of the source) and the bytes themselves, kept apart so that times can be had without the bytes.
 */
import { readDeltas, readRuns, writeDeltas, writeRuns } from './columns.ts';
import { BlockDamagedError, VarintReader, VarintWriter } from './varint.ts';

const FORM = 1;

/** Bytes as one read gave them. */
export interface RawChunk {
  /** Number within the pull, from 0. */
  readonly chunkSeq: number;
  /**
   * Number of the opening of the source within the pull, from 0; each opening has a parser of its own. Where there are
   * two instruments, those of the second have the odd numbers.
   */
  readonly opening: number;
  /** Arrival, µs on the monotonic clock since the record began. */
  readonly elapsedUs: number;
  readonly bytes: Uint8Array;
}

/** A chunk without its bytes. */
export interface ChunkEntry {
  readonly opening: number;
  readonly elapsedUs: number;
  readonly byteCount: number;
}

export function encodeChunkTable(chunks: readonly RawChunk[]): Uint8Array {
  const writer = new VarintWriter();
  writer.unsigned(FORM);
  writer.unsigned(chunks.length);
  writeRuns(
    writer,
    chunks.map((c) => c.opening),
  );
  writeDeltas(
    writer,
    chunks.map((c) => c.elapsedUs),
  );
  writeRuns(
    writer,
    chunks.map((c) => c.bytes.length),
  );
  return writer.finish();
}

export function decodeChunkTable(bytes: Uint8Array): ChunkEntry[] {
  const { openings, times, lengths } = columnsOfTable(bytes);
  return Array.from(times, (elapsedUs, i) => ({
    opening: openings[i] ?? 0,
    elapsedUs,
    byteCount: lengths[i] ?? 0,
  }));
}

/** Only the arrival of each chunk, µs since the record began. */
export function decodeChunkTimes(bytes: Uint8Array): Float64Array {
  return columnsOfTable(bytes).times;
}

function columnsOfTable(bytes: Uint8Array): Record<'openings' | 'times' | 'lengths', Float64Array> {
  const reader = new VarintReader(bytes);
  const form = reader.unsigned();
  if (form !== FORM) throw new BlockDamagedError(`form ${form} of a table of chunks is not known`);
  const count = reader.unsigned();
  if (count > reader.left) throw new BlockDamagedError('a table of chunks ends too early');
  const openings = readRuns(reader, new Float64Array(count));
  const times = readDeltas(reader, new Float64Array(count));
  const lengths = readRuns(reader, new Float64Array(count));
  if (!reader.atEnd) throw new BlockDamagedError('a table of chunks is longer than it says');
  return { openings, times, lengths };
}

/** The bytes of all chunks, one after the other. */
export function joinBytes(chunks: readonly { readonly bytes: Uint8Array }[]): Uint8Array {
  const joined = new Uint8Array(chunks.reduce((sum, c) => sum + c.bytes.length, 0));
  let at = 0;
  for (const { bytes } of chunks) {
    joined.set(bytes, at);
    at += bytes.length;
  }
  return joined;
}

/** The other way round. Throws a BlockDamagedError where table and bytes don't fit one another. */
export function splitBytes(firstChunk: number, table: readonly ChunkEntry[], bytes: Uint8Array): RawChunk[] {
  let at = 0;
  const chunks = table.map(({ opening, elapsedUs, byteCount }, i) => {
    const part = bytes.subarray(at, at + byteCount);
    at += byteCount;
    return { chunkSeq: firstChunk + i, opening, elapsedUs, bytes: part };
  });
  if (at !== bytes.length)
    throw new BlockDamagedError(`the table of chunks tells ${at} bytes and there are ${bytes.length}`);
  return chunks;
}
