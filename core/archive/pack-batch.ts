/**
 * Packs what a batch gathered, as it will lie in the archive. Done where it was gathered: a hundred small objects
 * cost more on their way to the archive's thread than packing them does.
 */
import { hash } from 'node:crypto';
import type { Batch } from './batch.ts';
import { encodeChunkTable, joinBytes } from './codec/raw-block.ts';
import { encodeReadings } from './codec/reading-block.ts';

export interface PackedChunks {
  readonly firstChunk: number;
  readonly count: number;
  readonly table: Uint8Array;
  /** The bytes of all of them. */
  readonly body: Uint8Array;
  /** Of the body. */
  readonly sha256: Uint8Array;
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

/** What a packed batch takes of the archive's blocks. */
export const packedBytes = ({ chunks, readings }: PackedBatch): number =>
  (chunks === null ? 0 : chunks.table.length + chunks.body.length) + (readings?.body.length ?? 0);

function packChunks({ chunks }: Batch): PackedChunks | null {
  const first = chunks[0];
  if (first === undefined) return null;
  const body = joinBytes(chunks);
  return {
    firstChunk: first.chunkSeq,
    count: chunks.length,
    table: encodeChunkTable(chunks),
    body,
    // Before it sets out: a commit does nothing that can be done before.
    sha256: hash('sha256', body, 'buffer'),
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
