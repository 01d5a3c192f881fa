/** The spool: what was handed to the system is there after a crash, and nothing else is believed. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it, onTestFinished } from 'vitest';
import { Spool, readSpool, spoolPaths } from '../../../electron/recorder/spool.ts';
import { RECORD_HEAD_BYTES } from '../../../electron/recorder/spool-record.ts';

const IDENTITY = 'archive-1';
const SEGMENT_BYTES = 1_000;

function archivePath(): string {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-spool-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return join(folder, 'a.gaugemark');
}

const record = (chunkSeq: number, text = `line ${chunkSeq}\r\n`, pullId = 1) => ({
  pullId,
  chunkSeq,
  opening: 0,
  elapsedUs: 1000 * chunkSeq,
  bytes: Buffer.from(text),
});

const texts = (path: string, fromChunk = 0, pullId = 1): string[] =>
  readSpool(path, { identity: IDENTITY, pullId, fromChunk }).records.map((r) =>
    Buffer.from(r.bytes).toString(),
  );

function open(path: string, generation = 1): Spool {
  const spool = new Spool(path, { identity: IDENTITY, generation, segmentBytes: SEGMENT_BYTES });
  onTestFinished(() => spool.close());
  return spool;
}

describe('a spool after a crash', () => {
  it('gives back every chunk in order, with its time and opening', () => {
    const path = archivePath();
    const spool = open(path);
    for (let seq = 0; seq < 5; seq++) spool.append(record(seq));
    const { records } = readSpool(path, { identity: IDENTITY, pullId: 1, fromChunk: 2 });
    expect(records.map((r) => [r.chunkSeq, r.elapsedUs, Buffer.from(r.bytes).toString()])).toEqual([
      [2, 2000, 'line 2\r\n'],
      [3, 3000, 'line 3\r\n'],
      [4, 4000, 'line 4\r\n'],
    ]);
  });

  it('takes its room beforehand, so that a full disk does not reach it', () => {
    const path = archivePath();
    open(path);
    for (const segment of spoolPaths(path)) expect(statSync(segment).size).toBe(SEGMENT_BYTES);
  });

  it('uses its segments in turn and never writes over what is not in the archive', () => {
    const path = archivePath();
    const spool = open(path);
    const perSegment = Math.floor((SEGMENT_BYTES - 64) / (RECORD_HEAD_BYTES + 8));
    const count = 5 * perSegment;
    for (let seq = 0; seq < count; seq++) {
      spool.append(record(seq, `l${String(seq).padStart(5, '0')}\n`.padEnd(8)));
      // The archive is always five chunks behind.
      if (seq >= 5) spool.release(seq - 5);
    }
    expect(texts(path, count - 5).length).toBe(5);
    for (const segment of spoolPaths(path)) expect(statSync(segment).size).toBe(SEGMENT_BYTES);
  });

  it('grows beyond its room while the archive takes nothing, and still holds everything', () => {
    const path = archivePath();
    const spool = open(path);
    for (let seq = 0; seq < 100; seq++) spool.append(record(seq));
    expect(texts(path)).toEqual(Array.from({ length: 100 }, (_, seq) => `line ${seq}\r\n`));
  });

  it('is not believed from the first record on that was cut off or changed (D2)', () => {
    fc.assert(
      fc.property(
        fc.nat(4),
        fc.nat(RECORD_HEAD_BYTES + 7),
        fc.integer({ min: 1, max: 255 }),
        (which, at, change) => {
          const path = archivePath();
          const spool = open(path);
          for (let seq = 0; seq < 5; seq++) spool.append(record(seq));
          const [segment] = spoolPaths(path);
          const bytes = readFileSync(segment);
          const where = 64 + which * (RECORD_HEAD_BYTES + 8) + at;
          bytes[where] = (bytes[where] ?? 0) ^ change;
          writeFileSync(segment, bytes);
          const left = texts(path);
          expect(left).toEqual(Array.from({ length: which }, (_, seq) => `line ${seq}\r\n`));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is not believed when it is shorter than its records', () => {
    const path = archivePath();
    const spool = open(path);
    for (let seq = 0; seq < 3; seq++) spool.append(record(seq));
    const [segment] = spoolPaths(path);
    writeFileSync(segment, readFileSync(segment).subarray(0, 64 + 2 * (RECORD_HEAD_BYTES + 8) + 10));
    expect(texts(path)).toEqual(['line 0\r\n', 'line 1\r\n']);
    writeFileSync(segment, Buffer.alloc(10));
    expect(texts(path)).toEqual([]);
  });

  it('is not taken into another archive, nor into another pull', () => {
    const path = archivePath();
    open(path).append(record(0));
    expect(readSpool(path, { identity: 'archive-2', pullId: 1, fromChunk: 0 }).records).toEqual([]);
    expect(texts(path, 0, 2)).toEqual([]);
  });

  it('gives nothing from behind a hole', () => {
    const path = archivePath();
    const spool = open(path);
    for (const seq of [4, 5, 7, 8]) spool.append(record(seq));
    expect(texts(path, 4)).toEqual(['line 4\r\n', 'line 5\r\n']);
    expect(texts(path, 3)).toEqual([]);
  });

  it('tells its old records from the new ones when it is begun again', () => {
    const path = archivePath();
    const first = open(path);
    for (let seq = 0; seq < 6; seq++) first.append(record(seq, `old ${seq}\n`));
    const { nextGeneration } = readSpool(path, { identity: IDENTITY, pullId: 1, fromChunk: 0 });
    const second = open(path, nextGeneration);
    second.append(record(0, 'new 0\n', 2));
    expect(texts(path, 0, 2)).toEqual(['new 0\n']);
    expect(texts(path, 0, 1)).toEqual([]);
  });
});

it('leaves no half of itself behind where it gets no room, and what it found as it was', () => {
  const path = archivePath();
  const [first, second] = spoolPaths(path);
  // Nothing can be opened there, as nothing could be written on a disk that is full.
  mkdirSync(second);
  expect(() => open(path)).toThrow();
  expect(existsSync(first)).toBe(false);
  writeFileSync(first, Buffer.alloc(SEGMENT_BYTES));
  expect(() => open(path)).toThrow();
  expect(existsSync(first)).toBe(true);
  expect(statSync(second).isDirectory()).toBe(true);
});

it('refuses a chunk that is longer than any read', () => {
  expect(() => open(archivePath()).append({ ...record(0), bytes: new Uint8Array(70_000) })).toThrow(
    RangeError,
  );
});
