import { cpSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { packBatch } from '../../../core/archive/pack-batch.ts';
import { END, SPECIMEN, batch, batchesOfLines, newPull, openArchive, scratchFolder } from './made-archive.ts';

const MEBI = 1_048_576;

describe('the room of the log', () => {
  it('is taken ahead of its use while a pull is recorded', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    expect(statSync(`${path}-wal`).size).toBeLessThan(MEBI);
    const sizes: number[] = [];
    for (const batch of batchesOfLines(pullId, 6, 50)) {
      archive.appendBatch(batch);
      sizes.push(statSync(`${path}-wal`).size);
    }
    expect(sizes[0]).toBeGreaterThan(4 * MEBI);
    // Commits go into the room: the file keeps its size.
    expect(new Set(sizes).size).toBe(1);
  });

  it('is enough for a pull of any length: the log is taken in between commits, a little at a time (D8)', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    const sizes = new Set<number>();
    // Some nine megabytes of log, were it not taken in: twice its room.
    for (const batch of batchesOfLines(pullId, 550, 5)) {
      archive.appendBatch(batch);
      sizes.add(statSync(`${path}-wal`).size);
    }
    expect(sizes.size).toBe(1);
    // The newest commit aside, what was kept stands in the main file while the pull goes on.
    expect(statSync(path).size).toBeGreaterThan(MEBI / 4);
    expect(archive.getPull(pullId).readingCount).toBe(2_750);
  });

  it('is taken in between two commits and never within one, a piece at a time; as a whole when the pull has ended (D8)', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    /** Changes with every write into the main file, and with none into the log. */
    const mainFile = (): bigint => statSync(path, { bigint: true }).mtimeNs;
    let takenIn = 0;
    let commits = 0;
    for (const its of batchesOfLines(pullId, 400, 5)) {
      const before = mainFile();
      archive.appendPacked(packBatch(its));
      expect(mainFile()).toBe(before);
      archive.tendLog();
      commits++;
      if (mainFile() !== before) takenIn++;
    }
    // A commit of five lines writes some four pages: with WAL_TAKEN_IN_BYTES a piece that is once in a hundred or so.
    expect(takenIn).toBeGreaterThan(0);
    expect(takenIn).toBeLessThan(commits / 50);
    archive.closePull(batch(pullId, { firstSeq: 2_000 }), END);
    const ended = mainFile();
    archive.checkpoint();
    expect(mainFile()).not.toBe(ended);
    // Nothing is left to be taken in: the main file alone has it all.
    const alone = join(scratchFolder(), 'alone.gaugemark');
    cpSync(path, alone);
    expect(openArchive(alone).getPull(pullId).readingCount).toBe(2_000);
  });

  it('stays when the log is taken into the main file, so that the next pull has it too (D8)', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    for (const batch of batchesOfLines(pullId, 2, 50)) archive.appendBatch(batch);
    archive.checkpoint();
    expect(statSync(`${path}-wal`).size).toBeGreaterThan(4 * MEBI);
  });

  it('means nothing to whoever opens what a killed recorder left behind', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    for (const batch of batchesOfLines(pullId, 3, 50)) archive.appendBatch(batch);
    archive.checkpoint();
    for (const batch of batchesOfLines(pullId, 4, 50)) if (batch.firstSeq >= 150) archive.appendBatch(batch);
    const left = join(scratchFolder(), 'left.gaugemark');
    cpSync(path, left);
    cpSync(`${path}-wal`, `${left}-wal`);
    expect(openArchive(left).getPull(pullId).readingCount).toBe(200);
  });
});
