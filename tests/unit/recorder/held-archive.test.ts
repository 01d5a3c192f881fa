/** Commits while the archive can't be written to: another process at its write lock, a forgotten query of our own, no room. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import type { PackedBatch } from '../../../core/archive/pack-batch.ts';
import type { ArchiveKeeper } from '../../../electron/recorder/archive-keeper.ts';
import { Committer } from '../../../electron/recorder/committer.ts';
import { SPECIMEN, batchesOfLines, newPull, openArchive, scratchFolder } from '../archive/made-archive.ts';

/** An archive with an open pull, and the commits of its record as the archive's thread makes them. */
function recordInto(path: string) {
  const archive = openArchive(path);
  const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
  const troubles: (string | null)[] = [];
  const keeper = {
    call: async (_name: string, batch: PackedBatch) => {
      await Promise.resolve();
      archive.appendPacked(batch);
      archive.tendLog();
    },
  } as unknown as ArchiveKeeper;
  const committer = new Committer(
    keeper,
    { pullId, nextSeq: 0, isRecovered: false },
    { onCommitted: () => undefined, onTrouble: (trouble) => troubles.push(trouble?.message ?? null) },
  );
  onTestFinished(() => committer.abandon());
  const batches = batchesOfLines(pullId, 60, 5);
  /** Five more lines come, and a commit is tried. */
  const fiveMore = async (): Promise<void> => {
    const next = batches.next();
    if (next.done === true) throw new Error('no more lines');
    for (const chunk of next.value.chunks) committer.addChunk(chunk);
    for (const reading of next.value.readings) committer.addReading(reading);
    await committer.flush();
  };
  return { archive, pullId, committer, troubles, fiveMore };
}

/** Every line once and in its order. */
function expectInOrder(archive: Archive, pullId: number, lines: number): void {
  const { chunks } = archive.readRaw(pullId, 0, 10_000);
  expect(chunks.map(({ chunkSeq }) => chunkSeq)).toEqual(Array.from({ length: lines }, (_, seq) => seq));
  expect(archive.getPull(pullId).readingCount).toBe(lines);
  expect(archive.check({}).sound).toBe(true);
}

/** Another process with BEGIN IMMEDIATE, until it is let go. */
async function heldByAnother(path: string): Promise<{ letGo: () => Promise<void> }> {
  const program = `
    const Database = require('better-sqlite3');
    const database = new Database(${JSON.stringify(path)});
    database.exec('BEGIN IMMEDIATE');
    process.stdout.write('held');`;
  const child = spawn(process.execPath, ['-e', `${program} setInterval(() => undefined, 1000);`], {
    cwd: new URL('../../..', import.meta.url),
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  const [said] = (await once(child.stdout, 'data')) as [Buffer];
  expect(said.toString()).toBe('held');
  const letGo = async (): Promise<void> => {
    child.kill('SIGKILL');
    await once(child, 'close');
  };
  return { letGo };
}

describe('a second process', () => {
  it('can take neither the write lock nor a query while the archive is owned (D8, D10)', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    recordInto(path);
    const second = new Database(path, { timeout: 0 });
    onTestFinished(() => void second.close());
    const codeOf = (work: () => unknown): unknown => {
      try {
        work();
      } catch (error) {
        return error instanceof Error && 'code' in error ? error.code : error;
      }
      return 'it was done';
    };
    expect(codeOf(() => second.exec('BEGIN IMMEDIATE'))).toBe('SQLITE_BUSY');
    expect(codeOf(() => second.prepare('SELECT * FROM pull').iterate())).toBe('SQLITE_BUSY');
  });

  it('that holds BEGIN IMMEDIATE at a commit, where its lock did not keep it out: the batch is kept, busy is told, and all of it is committed later in order (D10)', async () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const { archive, pullId, committer, troubles, fiveMore } = recordInto(path);
    await fiveMore();
    // The owner's lock taken away, as where a file system does not keep it: otherwise nobody can hold anything.
    archive.connection.pragma('journal_mode = DELETE');
    archive.connection.pragma('locking_mode = NORMAL');
    expect(archive.getPull(pullId).readingCount).toBe(5);
    const held = await heldByAnother(path);
    await fiveMore();
    await fiveMore();
    expect(committer.isTroubled).toBe(true);
    expect(troubles.length).toBeGreaterThan(0);
    for (const told of troubles) expect(told).toMatch(/^Another running program has the archive .* open/);
    expect(committer.heldReadings).toHaveLength(10);
    expect(archive.getPull(pullId).readingCount).toBe(5);
    await held.letGo();
    await fiveMore();
    expect([committer.isTroubled, troubles.at(-1), committer.heldBytes]).toEqual([false, null, 0]);
    expectInOrder(archive, pullId, 20);
  });
});

describe('a query that somebody forgot', () => {
  it('holds up the commits, which is told; what came meanwhile is committed in order when it ends (D8)', async () => {
    const { archive, pullId, committer, troubles, fiveMore } = recordInto(
      join(scratchFolder(), 'a.gaugemark'),
    );
    await fiveMore();
    const forgotten = archive.connection.prepare('SELECT * FROM raw_block').iterate();
    forgotten.next();
    await fiveMore();
    await fiveMore();
    expect(troubles.at(-1)).toMatch(/busy/);
    expect(committer.heldReadings).toHaveLength(10);
    forgotten.return?.();
    await fiveMore();
    expect(troubles.at(-1)).toBeNull();
    expectInOrder(archive, pullId, 20);
  });

  it('and lets commits pass all the same: the log grows, its size is told, and from its end on it grows no more (D8)', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const { archive, pullId } = recordInto(path);
    const batches = batchesOfLines(pullId, 1_000, 5);
    /** So many commits later: what is told of the log's size. */
    const logBytesAfter = (commits: number): number => {
      for (let commit = 0; commit < commits; commit++) {
        const next = batches.next();
        if (next.done !== true) archive.appendBatch(next.value);
      }
      const { logBytes } = archive.info();
      expect(logBytes).toBe(statSync(`${path}-wal`).size);
      return logBytes;
    };
    const room = logBytesAfter(1);
    // The library itself refuses to write beside a query, as above, unless it is told not to.
    archive.connection.unsafeMode();
    const forgotten = archive.connection.prepare('SELECT * FROM fact').iterate();
    forgotten.next();
    expect(logBytesAfter(300)).toBeGreaterThan(room);
    forgotten.return?.();
    const grown = logBytesAfter(150);
    // As much again as it has grown by, and it is written over where it stands.
    expect(logBytesAfter(300)).toBe(grown);
  });
});

describe('no room for another page', () => {
  it('is told as a full disk; the batches are kept, and all of them are committed in order once there is room (D3)', async () => {
    const { archive, pullId, committer, troubles, fiveMore } = recordInto(
      join(scratchFolder(), 'a.gaugemark'),
    );
    await fiveMore();
    // The code of a full disk without a file system: https://sqlite.org/pragma.html#pragma_max_page_count
    const pages = Number(archive.connection.pragma('page_count', { simple: true }));
    archive.connection.pragma(`max_page_count = ${String(pages)}`);
    let tried = 0;
    while (!committer.isTroubled && tried++ < 40) await fiveMore();
    expect(troubles.at(-1)).toMatch(/^The disk that holds .* is full\. .* the rest is written in order/);
    const kept = archive.getPull(pullId).readingCount;
    await fiveMore();
    expect(archive.getPull(pullId).readingCount).toBe(kept);
    archive.connection.pragma(`max_page_count = ${String(pages + 1_000)}`);
    await fiveMore();
    expect([committer.isTroubled, troubles.at(-1), committer.heldBytes]).toEqual([false, null, 0]);
    expectInOrder(archive, pullId, 5 * (tried + 3));
  });
});
