/**
 * The write-ahead log beside an archive, changed: heads of frames, bytes of their pages, frames twice, in another order
 * or cut off. Its checksums are then either left wrong, as after a crash, or made right again, so that what was changed
 * is believed. Offsets and checksum: SQLite database file format, section 4 ("The Write-Ahead Log").
 */
import fc from 'fast-check';
import { place } from './places.ts';

const LOG_HEAD_BYTES = 32;
const FRAME_HEAD_BYTES = 24;
const PAGE_SIZE_AT = 8;
const SALT_AT = 16;
const LOG_SUM_AT = 24;
/** Within the head of a frame: its page's number, and the pages of the database after a commit. */
const FRAME_SUM_AT = 16;
const FRAME_FIELDS = [0, 4, 8, 12] as const;
const CHANGES_MAX = 4;
const NUMBERS = [0, 1, 2, 3, 13, 255, 512, 4096, 0x7fff_ffff, 0xffff_ffff];

const number = fc.oneof(fc.constantFrom(...NUMBERS), fc.nat({ max: 0xffff_ffff }));

type Change =
  | { readonly kind: 'log-head'; readonly at: number; readonly number: number }
  | { readonly kind: 'frame-head'; readonly frame: number; readonly field: number; readonly number: number }
  | { readonly kind: 'page-byte'; readonly frame: number; readonly at: number; readonly byte: number }
  | { readonly kind: 'page-head'; readonly frame: number; readonly at: number; readonly byte: number }
  | { readonly kind: 'frame'; readonly frame: number; readonly by: number }
  | { readonly kind: 'end'; readonly at: number };

const byte = fc.nat({ max: 255 });
const change: fc.Arbitrary<Change> = fc.oneof(
  fc.record({ kind: fc.constant('log-head' as const), at: fc.nat({ max: LOG_HEAD_BYTES - 4 }), number }),
  fc.record({
    kind: fc.constant('frame-head' as const),
    frame: place,
    field: fc.nat({ max: FRAME_FIELDS.length - 1 }),
    number,
  }),
  fc.record({ kind: fc.constant('page-byte' as const), frame: place, at: place, byte }),
  fc.record({ kind: fc.constant('page-head' as const), frame: place, at: fc.nat({ max: 107 }), byte }),
  fc.record({ kind: fc.constant('frame' as const), frame: place, by: place }),
  fc.record({ kind: fc.constant('end' as const), at: place }),
);

export function changedLog([log = Buffer.alloc(0)]: readonly Buffer[]): fc.Arbitrary<Buffer> {
  return fc
    .tuple(fc.array(change, { minLength: 1, maxLength: CHANGES_MAX }), fc.boolean())
    .map(([changes, isBelieved]) => {
      const bytes = changes.reduce<Buffer>((before, its) => changed(before, its), Buffer.from(log));
      return isBelieved ? withItsSums(bytes) : bytes;
    });
}

const frameBytes = (log: Buffer): number => FRAME_HEAD_BYTES + log.readUInt32BE(PAGE_SIZE_AT);
const frameCount = (log: Buffer): number =>
  log.length < LOG_HEAD_BYTES ? 0 : Math.floor((log.length - LOG_HEAD_BYTES) / frameBytes(log));

function changed(log: Buffer, change: Change): Buffer {
  if (change.kind === 'end') return log.subarray(0, Math.floor(change.at * log.length));
  if (change.kind === 'log-head') {
    if (log.length >= LOG_HEAD_BYTES) log.writeUInt32BE(change.number, change.at);
    return log;
  }
  const size = log.length < LOG_HEAD_BYTES ? 0 : frameBytes(log);
  const start = (of: number): number => LOG_HEAD_BYTES + Math.floor(of * frameCount(log)) * size;
  const from = start(change.frame);
  if (from + size > log.length) return log;
  switch (change.kind) {
    case 'frame-head':
      log.writeUInt32BE(change.number, from + (FRAME_FIELDS[change.field] ?? 0));
      break;
    case 'page-byte':
      log[from + FRAME_HEAD_BYTES + Math.floor(change.at * (size - FRAME_HEAD_BYTES))] = change.byte;
      break;
    case 'page-head':
      log[from + FRAME_HEAD_BYTES + change.at] = change.byte;
      break;
    case 'frame':
      log.copyWithin(from, start(change.by), start(change.by) + size);
      break;
  }
  return log;
}

/** The salts and checksums that the log's own head asks for. */
export function withItsSums(log: Buffer): Buffer {
  if (log.length < LOG_HEAD_BYTES) return log;
  const isBig = (log.readUInt32BE(0) & 1) === 1;
  const word = (at: number): number => (isBig ? log.readUInt32BE(at) : log.readUInt32LE(at));
  let [a, b] = [0, 0];
  const add = (from: number, to: number): void => {
    for (let at = from; at < to; at += 8) {
      a = (a + word(at) + b) >>> 0;
      b = (b + word(at + 4) + a) >>> 0;
    }
  };
  const put = (at: number): void => {
    log.writeUInt32BE(a, at);
    log.writeUInt32BE(b, at + 4);
  };
  add(0, LOG_SUM_AT);
  put(LOG_SUM_AT);
  const size = frameBytes(log);
  // A size that a change made: no page is cut so.
  if (size % 8 !== 0) return log;
  for (let frame = LOG_HEAD_BYTES; frame + size <= log.length; frame += size) {
    log.copy(log, frame + 8, SALT_AT, SALT_AT + 8);
    add(frame, frame + 8);
    add(frame + FRAME_HEAD_BYTES, frame + size);
    put(frame + FRAME_SUM_AT);
  }
  return log;
}
