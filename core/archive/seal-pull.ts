/**
 * Resealing: the many small blocks of a recording become few large, packed ones. Each large block is unpacked
 * again and compared byte for byte before the small ones go, all inside the transaction that closes the record.
 */
import { type Hash, createHash } from 'node:crypto';
import type { Reading, ShownValue } from '../contract/reading.ts';
import { PACKED_DEFLATE, pack, unpack } from './codec/packing.ts';
import { type RawChunk, encodeChunkTable, joinBytes } from './codec/raw-block.ts';
import { decodeReadings, encodeReadings } from './codec/reading-block.ts';
import { rawBlocks, readingBlocks } from './read-blocks.ts';
import { type Connection, insert } from './sql.ts';

/** Large enough to pack well, small enough that one block is read in a few milliseconds. */
const SEALED_READINGS = 16_384;
const SEALED_RAW_BYTES = 524_288;

export interface Sealed {
  readonly readingCount: number;
  readonly chunkCount: number;
  readonly rawByteCount: number;
  readonly rawSha256: Uint8Array;
  readonly readingsSha256: Uint8Array;
}

/** Throws where a block doesn't come back as it was: then the record stays open and as it was. */
export function sealPull(connection: Connection, pullId: number): Sealed {
  return { ...sealRaw(connection, pullId), ...sealReadings(connection, pullId) };
}

function sealRaw(
  connection: Connection,
  pullId: number,
): Pick<Sealed, 'chunkCount' | 'rawByteCount' | 'rawSha256'> {
  const hash = createHash('sha256');
  let waiting: RawChunk[] = [];
  let waitingBytes = 0;
  let chunkCount = 0;
  let rawByteCount = 0;
  const seal = (): void => {
    if (waiting.length === 0) return;
    sealRawBlock(connection, pullId, waiting);
    waiting = [];
    waitingBytes = 0;
  };
  for (const { chunks, bytes } of rawBlocks(connection, pullId)) {
    hash.update(bytes);
    chunkCount += chunks.length;
    rawByteCount += bytes.length;
    for (const chunk of chunks) waiting.push(chunk);
    waitingBytes += bytes.length;
    if (waitingBytes >= SEALED_RAW_BYTES) seal();
  }
  seal();
  return { chunkCount, rawByteCount, rawSha256: hash.digest() };
}

function sealRawBlock(connection: Connection, pullId: number, chunks: readonly RawChunk[]): void {
  const first = chunks[0]?.chunkSeq ?? 0;
  const body = joinBytes(chunks);
  const table = encodeChunkTable(chunks);
  connection
    .prepare('DELETE FROM raw_block WHERE pull_id = ? AND first_chunk BETWEEN ? AND ?')
    .run(pullId, first, first + chunks.length - 1);
  insert(connection, 'raw_block', {
    pull_id: pullId,
    first_chunk: first,
    chunk_count: chunks.length,
    byte_count: body.length,
    table_packing: PACKED_DEFLATE,
    chunk_table: packedAndCompared(table),
    packing: PACKED_DEFLATE,
    body: packedAndCompared(body),
    sha256: createHash('sha256').update(body).digest(),
  });
}

function sealReadings(
  connection: Connection,
  pullId: number,
): Pick<Sealed, 'readingCount' | 'readingsSha256'> {
  const hash = createHash('sha256');
  let waiting: Reading[] = [];
  let firstSeq = 0;
  const seal = (): void => {
    if (waiting.length === 0) return;
    sealReadingBlock(connection, { pullId, firstSeq, readings: waiting });
    firstSeq += waiting.length;
    waiting = [];
  };
  for (const { readings } of readingBlocks(connection, pullId)) {
    hashReadings(hash, readings);
    for (const reading of readings) waiting.push(reading);
    if (waiting.length >= SEALED_READINGS) seal();
  }
  seal();
  return { readingCount: firstSeq, readingsSha256: hash.digest() };
}

function sealReadingBlock(
  connection: Connection,
  { pullId, firstSeq, readings }: { pullId: number; firstSeq: number; readings: readonly Reading[] },
): void {
  const encoded = encodeReadings(readings);
  if (!sameReadings(decodeReadings(encoded), readings))
    throw new Error(`readings from ${firstSeq} on do not come back from their block as they were`);
  connection
    .prepare('DELETE FROM reading_block WHERE pull_id = ? AND first_seq BETWEEN ? AND ?')
    .run(pullId, firstSeq, firstSeq + readings.length - 1);
  insert(connection, 'reading_block', {
    pull_id: pullId,
    first_seq: firstSeq,
    reading_count: readings.length,
    first_chunk: readings[0]?.chunkSeq ?? 0,
    last_chunk: readings.at(-1)?.chunkSeq ?? 0,
    packing: PACKED_DEFLATE,
    body: packedAndCompared(encoded),
  });
}

function packedAndCompared(bytes: Uint8Array): Uint8Array {
  const packed = pack(bytes);
  if (Buffer.compare(unpack(packed, PACKED_DEFLATE), bytes) !== 0)
    throw new Error('a packed block does not come back as it was');
  return packed;
}

function sameReadings(a: readonly Reading[], b: readonly Reading[]): boolean {
  return (
    a.length === b.length &&
    a.every((reading, i) => {
      const other = b[i];
      return (
        other !== undefined &&
        reading.chunkSeq === other.chunkSeq &&
        reading.lineIndex === other.lineIndex &&
        reading.status === other.status &&
        reading.channels.length === other.channels.length &&
        reading.channels.every((value, channel) => sameValue(value, other.channels[channel]))
      );
    })
  );
}

function sameValue(a: ShownValue, b: ShownValue | undefined): boolean {
  return (
    b !== undefined &&
    a.mantissa === b.mantissa &&
    a.exponent === b.exponent &&
    a.exact === b.exact &&
    a.unit === b.unit &&
    a.status === b.status
  );
}

/** One line a reading, in a form that does not depend on how readings are cut into blocks. */
function readingsText(readings: readonly Reading[], withExact: boolean): string {
  return readings
    .map(
      (r) =>
        `${r.chunkSeq} ${r.lineIndex} ${r.status}${r.channels
          .map(
            (c) =>
              ` ${withExact && c.exact !== undefined ? `${c.exact}=` : ''}${c.mantissa ?? 'none'}e${c.exponent} ${c.unit} ${c.status}`,
          )
          .join('')}\n`,
    )
    .join('');
}

/** Adds readings to a hash over a whole pull; `withExact: false` leaves out what is beyond a safe integer. */
export function hashReadings(hash: Hash, readings: readonly Reading[], { withExact = true } = {}): void {
  hash.update(readingsText(readings, withExact), 'utf8');
}
