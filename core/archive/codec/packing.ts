/** How the bytes of a block are packed; the number is stored beside the block. Append only. */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { BlockDamagedError } from './varint.ts';

export const PACKED_PLAIN = 0;
export const PACKED_DEFLATE = 1;
export type Packing = typeof PACKED_PLAIN | typeof PACKED_DEFLATE;

/** A block holds less than this unpacked; guards against a damaged block that would unpack without end. */
export const BLOCK_BYTES_MAX = 64 * 1_048_576;
/** Most blocks fit: they need not be put together from pieces. */
const UNPACKED_AT_ONCE_BYTES = 65_536;

/** Harder packing takes five times as long for one byte in ten thousand: a long record would be closed a minute later. */
const DEFLATE_LEVEL = 6;

export function pack(bytes: Uint8Array): Uint8Array {
  return deflateRawSync(bytes, { level: DEFLATE_LEVEL });
}

export function unpack(bytes: Uint8Array, packing: number): Uint8Array {
  if (packing === PACKED_PLAIN) return bytes;
  if (packing !== PACKED_DEFLATE) throw new BlockDamagedError(`packing ${packing} of a block is not known`);
  try {
    return inflateRawSync(bytes, { maxOutputLength: BLOCK_BYTES_MAX, chunkSize: UNPACKED_AT_ONCE_BYTES });
  } catch (error) {
    throw new BlockDamagedError(`a block can't be unpacked: ${error instanceof Error ? error.message : ''}`);
  }
}
