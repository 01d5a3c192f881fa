/**
 * One record of the spool: a chunk as it came from the port, with what is needed to take it into the archive after
 * a crash. A record that was cut off by the crash fails its checksum and is not believed.
 */
import { crc32 } from 'node:zlib';
import { CHUNK_BYTES_MAX } from '../../core/limits.ts';

const MAGIC = 0x474d5350;
export const RECORD_HEAD_BYTES = 48;

export interface SpoolRecord {
  /** Grows each time a segment is begun anew; tells old records of a segment from new ones. */
  readonly generation: number;
  readonly pullId: number;
  readonly chunkSeq: number;
  readonly opening: number;
  readonly elapsedUs: number;
  readonly bytes: Uint8Array;
}

/** Head (little-endian): magic, crc of all that follows, generation, pull, chunk, opening, length, time. Then the bytes. */
export function encodeSpoolRecord(record: SpoolRecord): Buffer {
  if (record.bytes.length > CHUNK_BYTES_MAX)
    throw new RangeError(`a chunk of ${record.bytes.length} bytes is too long for the spool`);
  const buffer = Buffer.alloc(RECORD_HEAD_BYTES + record.bytes.length);
  buffer.writeUInt32LE(MAGIC, 0);
  buffer.writeDoubleLE(record.generation, 8);
  buffer.writeDoubleLE(record.elapsedUs, 16);
  buffer.writeDoubleLE(record.pullId, 24);
  buffer.writeDoubleLE(record.chunkSeq, 32);
  buffer.writeUInt32LE(record.opening, 40);
  buffer.writeUInt32LE(record.bytes.length, 44);
  buffer.set(record.bytes, RECORD_HEAD_BYTES);
  buffer.writeUInt32LE(crc32(buffer.subarray(8)), 4);
  return buffer;
}

/** The record at `at`, and where the next one would begin; null where there is no whole record. */
export function decodeSpoolRecord(
  segment: Buffer,
  at: number,
): { readonly record: SpoolRecord; readonly next: number } | null {
  if (at + RECORD_HEAD_BYTES > segment.length || segment.readUInt32LE(at) !== MAGIC) return null;
  const length = segment.readUInt32LE(at + 44);
  const next = at + RECORD_HEAD_BYTES + length;
  if (length > CHUNK_BYTES_MAX || next > segment.length) return null;
  if (crc32(segment.subarray(at + 8, next)) !== segment.readUInt32LE(at + 4)) return null;
  return {
    record: {
      generation: segment.readDoubleLE(at + 8),
      elapsedUs: segment.readDoubleLE(at + 16),
      pullId: segment.readDoubleLE(at + 24),
      chunkSeq: segment.readDoubleLE(at + 32),
      opening: segment.readUInt32LE(at + 40),
      bytes: segment.subarray(at + RECORD_HEAD_BYTES, next),
    },
    next,
  };
}
