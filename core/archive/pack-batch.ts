/**
 * Packs what a batch gathered, as it will lie in the archive. Done where it was gathered: a hundred small objects
 * cost more on their way to the archive's thread than packing them does.
 */
import type { Batch } from './batch.ts';
import { encodeChunkTable, joinBytes } from './codec/raw-block.ts';
import { encodeReadings } from './codec/reading-block.ts';

export interface PackedChunks {
  readonly firstChunk: number;
  readonly count: number;
  readonly table: Uint8Array;
  /** The bytes of all of them. */
  readonly body: Uint8Array;
}

export interface PackedReadings {
  readonly count: number;
  /** Chunks in which the first and the last of them ended. */
  readonly firstChunk: number;
  readonly lastChunk: number;
  readonly body: Uint8Array;
}

/** Null where there were none. */
export interface PackedBatch extends Omit<Batch, 'chunks' | 'readings'> {
  readonly chunks: PackedChunks | null;
  readonly readings: PackedReadings | null;
}

/** Throws a RangeError for chunks or readings that no block can hold. */
export function packBatch(batch: Batch): PackedBatch {
  return { ...batch, chunks: packChunks(batch), readings: packReadings(batch) };
}

function packChunks({ chunks }: Batch): PackedChunks | null {
  const first = chunks[0];
  if (first === undefined) return null;
  return {
    firstChunk: first.chunkSeq,
    count: chunks.length,
    table: encodeChunkTable(chunks),
    body: joinBytes(chunks),
  };
}

function packReadings({ readings }: Batch): PackedReadings | null {
  const first = readings[0];
  const last = readings.at(-1);
  if (first === undefined || last === undefined) return null;
  return {
    count: readings.length,
    firstChunk: first.chunkSeq,
    lastChunk: last.chunkSeq,
    body: encodeReadings(readings),
  };
}
