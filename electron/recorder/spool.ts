/**
 * The spool: each chunk is handed to the operating system here, before anything looks at it. Two segments beside
 * the archive, their room taken beforehand, written in turn; a segment is begun anew only when everything in it
 * is in the archive. A killed process loses what it held in its hands; a power cut loses what was not committed.
 */
import {
  closeSync,
  existsSync,
  fsync,
  ftruncateSync,
  fstatSync,
  openSync,
  readFileSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { discardPart } from '../../core/archive/discard-part.ts';
import { SPOOL_SEGMENT_BYTES } from '../../core/limits.ts';
import {
  RECORD_HEAD_BYTES,
  type SpoolRecord,
  SpoolRecordEncoder,
  decodeSpoolRecord,
} from './spool-record.ts';

/** First bytes of a segment: which archive it belongs to. */
const IDENTITY_BYTES = 64;
/**
 * The room is taken in pieces of this size. Linux keeps a file in memory in pieces as large as it was written in, and a
 * short write into a large one takes twice as long (measured on ext4).
 */
const ROOM_PIECE_BYTES = 65_536;

export type NewRecord = Omit<SpoolRecord, 'generation'>;

interface Segment {
  readonly file: number;
  /** Where the next record goes. */
  at: number;
  /** The last chunk in it that is not known to be in the archive; null when there is none. */
  lastWaiting: number | null;
}

export function spoolPaths(archivePath: string): readonly [string, string] {
  return [`${archivePath}-spool-a`, `${archivePath}-spool-b`];
}

export class Spool {
  readonly #segments: readonly [Segment, Segment];
  readonly #segmentBytes: number;
  readonly #paths: readonly string[];
  readonly #encoder = new SpoolRecordEncoder();
  #active: 0 | 1 = 0;
  #generation: number;

  /**
   * Takes the room on the disk; throws what the file system gives (disk full), and has then taken none. What is there is to be
   * read first: see `readSpool`.
   */
  constructor(
    archivePath: string,
    { identity, generation, segmentBytes = SPOOL_SEGMENT_BYTES }: SpoolOptions,
  ) {
    this.#segmentBytes = segmentBytes;
    this.#generation = generation;
    this.#paths = spoolPaths(archivePath);
    this.#segments = openSegments(archivePath, identity, segmentBytes);
  }

  /** Hands one chunk to the system. Throws what the file system gives; the caller goes on without the spool then. */
  append(record: NewRecord): void {
    const length = RECORD_HEAD_BYTES + record.bytes.length;
    let segment = this.#segments[this.#active];
    if (segment.at + length > this.#segmentBytes) segment = this.#nextSegment(segment);
    // Only now: the next segment has a generation of its own.
    const end = this.#encoder.encode({ ...record, generation: this.#generation });
    let written = 0;
    while (written < end)
      written += writeSync(segment.file, this.#encoder.buffer, written, end - written, segment.at + written);
    segment.at += end;
    segment.lastWaiting = record.chunkSeq;
  }

  /** Everything up to this chunk (inclusive) is in the archive. */
  release(chunkSeq: number): void {
    for (const segment of this.#segments)
      if (segment.lastWaiting !== null && segment.lastWaiting <= chunkSeq) segment.lastWaiting = null;
  }

  /** A record has ended: nothing in the spool is waited for. */
  releaseAll(): void {
    for (const segment of this.#segments) segment.lastWaiting = null;
  }

  close(): void {
    for (const { file } of this.#segments) closeSync(file);
  }

  /** Nothing in it is needed any more: closes it and takes its files away. */
  remove(): void {
    this.close();
    for (const path of this.#paths) rmSync(path, { force: true });
  }

  /** The other segment where it is free; otherwise the present one grows beyond its room, as long as the disk lets it. */
  #nextSegment(present: Segment): Segment {
    const other: 0 | 1 = this.#active === 0 ? 1 : 0;
    if (this.#segments[other].lastWaiting !== null) return present;
    this.#active = other;
    this.#generation++;
    const next = this.#segments[other];
    next.at = IDENTITY_BYTES;
    return next;
  }
}

export interface SpoolOptions {
  /** Identity of the archive. */
  readonly identity: string;
  /** One more than the largest in the spool that is there. */
  readonly generation: number;
  /** For tests. */
  readonly segmentBytes?: number;
}

/** Both or neither: half a spool is of no use, and would keep its room from the archive on a disk that has none left. */
function openSegments(
  archivePath: string,
  identity: string,
  segmentBytes: number,
): readonly [Segment, Segment] {
  const [a, b] = spoolPaths(archivePath);
  const made = [a, b].filter((path) => !existsSync(path));
  let first: Segment | null = null;
  try {
    first = openSegment(a, identity, segmentBytes);
    return [first, openSegment(b, identity, segmentBytes)];
  } catch (error) {
    if (first !== null) closeSync(first.file);
    for (const path of made) discardPart(path);
    throw error;
  }
}

function openSegment(path: string, identity: string, segmentBytes: number): Segment {
  const file = openSync(path, existsSync(path) ? 'r+' : 'w+', 0o600);
  try {
    takeRoom(file, identity, segmentBytes);
  } catch (error) {
    closeSync(file);
    throw error;
  }
  return { file, at: IDENTITY_BYTES, lastWaiting: null };
}

function takeRoom(file: number, identity: string, segmentBytes: number): void {
  if (fstatSync(file).size > segmentBytes) ftruncateSync(file, segmentBytes);
  // Written out rather than left sparse, so that the room is really taken; old records are overwritten with zeros.
  const zeros = Buffer.alloc(Math.min(segmentBytes, ROOM_PIECE_BYTES));
  for (let at = 0; at < segmentBytes; at += zeros.length)
    writeSync(file, zeros, 0, Math.min(zeros.length, segmentBytes - at), at);
  writeSync(file, identityBytes(identity), 0, IDENTITY_BYTES, 0);
  // The room is reserved by then, and a power cut is not what a spool is for: nobody waits for the disk to have it. What
  // the disk refuses all the same, it refuses the records too, and that is told.
  fsync(file, () => undefined);
}

function identityBytes(identity: string): Buffer {
  const bytes = Buffer.alloc(IDENTITY_BYTES);
  bytes.write(identity, 'latin1');
  return bytes;
}

export interface KeptSpool {
  /** Whole records of one pull, in the order of their chunks, each chunk once. */
  readonly records: readonly SpoolRecord[];
  readonly nextGeneration: number;
}

/** What a spool holds for one pull, from `fromChunk` on, without a hole. To be read before the spool is opened. */
export function readSpool(
  archivePath: string,
  { identity, pullId, fromChunk }: { identity: string; pullId: number; fromChunk: number },
): KeptSpool {
  const found: SpoolRecord[] = [];
  let nextGeneration = 1;
  for (const path of spoolPaths(archivePath)) {
    if (!existsSync(path)) continue;
    const segment = readFileSync(path);
    if (segment.length < IDENTITY_BYTES) continue;
    if (Buffer.compare(segment.subarray(0, IDENTITY_BYTES), identityBytes(identity)) !== 0) continue;
    let generation: number | null = null;
    let decoded = decodeSpoolRecord(segment, IDENTITY_BYTES);
    while (decoded !== null) {
      const { record, next } = decoded;
      generation ??= record.generation;
      // An older generation behind the newest record: the rest of what the segment held before.
      if (record.generation !== generation) break;
      nextGeneration = Math.max(nextGeneration, record.generation + 1);
      if (record.pullId === pullId && record.chunkSeq >= fromChunk) found.push(record);
      decoded = decodeSpoolRecord(segment, next);
    }
  }
  found.sort((a, b) => a.generation - b.generation || a.chunkSeq - b.chunkSeq);
  const records: SpoolRecord[] = [];
  for (const record of found) if (record.chunkSeq === fromChunk + records.length) records.push(record);
  return { records, nextGeneration };
}
