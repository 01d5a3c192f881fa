/**
 * One record of the spool: a chunk as it came from the port, with what is needed to take it into the archive after
 * a crash. A record that was cut off by the crash fails its checksum and is not believed.
 */
import { crc32 } from 'node:zlib';
import { CHUNK_BYTES_MAX } from '../../core/limits.ts';

const MAGIC = 0x474d5350;
export const RECORD_HEAD_BYTES = 48;
/** Behind magic and checksum. */
const CHECKED_FROM = 8;

export interface SpoolRecord {
  /** Grows each time a segment is begun anew; tells old records of a segment from new ones. */
  readonly generation: number;
  readonly pullId: number;
  readonly chunkSeq: number;
  readonly opening: number;
  readonly elapsedUs: number;
  readonly bytes: Uint8Array;
}

/** Encodes records one after the other in the same memory: there is one for every line of a readout. */
export class SpoolRecordEncoder {
  readonly buffer = Buffer.alloc(RECORD_HEAD_BYTES + CHUNK_BYTES_MAX);
  /** What the checksum is of; lines are mostly equally long, so the view is seldom made anew. */
  #checked = this.buffer.subarray(CHECKED_FROM);

  /**
   * Head (little-endian): magic, crc of all that follows, generation, time, pull, chunk, opening, length. Then the bytes.
   * @returns how much of `buffer` the record takes, until the next is encoded
   */
  encode(record: SpoolRecord): number {
    const { buffer } = this;
    const { bytes } = record;
    if (bytes.length > CHUNK_BYTES_MAX)
      throw new RangeError(`a chunk of ${bytes.length} bytes is too long for the spool`);
    const end = RECORD_HEAD_BYTES + bytes.length;
    buffer.writeUInt32LE(MAGIC, 0);
    buffer.writeDoubleLE(record.generation, 8);
    buffer.writeDoubleLE(record.elapsedUs, 16);
    buffer.writeDoubleLE(record.pullId, 24);
    buffer.writeDoubleLE(record.chunkSeq, 32);
    buffer.writeUInt32LE(record.opening, 40);
    buffer.writeUInt32LE(bytes.length, 44);
    buffer.set(bytes, RECORD_HEAD_BYTES);
    if (this.#checked.length !== end - CHECKED_FROM) this.#checked = buffer.subarray(CHECKED_FROM, end);
    buffer.writeUInt32LE(crc32(this.#checked), 4);
    return end;
  }
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
  if (crc32(segment.subarray(at + CHECKED_FROM, next)) !== segment.readUInt32LE(at + 4)) return null;
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
