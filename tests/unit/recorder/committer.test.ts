/** Commits: in order, each batch once, tried again as it is when the archive can't be written to. */
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { ArchiveFault } from '../../../core/archive/archive-fault.ts';
import type { Batch, PullEnd } from '../../../core/archive/batch.ts';
import type { PackedBatch } from '../../../core/archive/pack-batch.ts';
import { COMMIT_INTERVAL_MS, COMMIT_INTERVAL_MS_MAX } from '../../../core/limits.ts';
import type { ArchiveKeeper } from '../../../electron/recorder/archive-keeper.ts';
import { Committer } from '../../../electron/recorder/committer.ts';

const END: PullEnd = { endedWallMs: 1, durationUs: 1, peakForceN: null, misfitCount: {} };
const chunk = (chunkSeq: number) => ({ chunkSeq, opening: 0, elapsedUs: chunkSeq, bytes: new Uint8Array(3) });

/** An archive that fails the given calls (counted from 1) and remembers the rest. */
function faultyArchive(failing: readonly number[]) {
  const batches: (Batch | PackedBatch)[] = [];
  let ended: PullEnd | null = null;
  let calls = 0;
  const keeper = {
    call: (name: string, batch: Batch | PackedBatch, end?: PullEnd) => {
      calls++;
      if (failing.includes(calls))
        return Promise.reject(new ArchiveFault('archive-disk-full', 'The disk is full.'));
      batches.push(batch);
      if (name === 'closePull' && end !== undefined) ended = end;
      return Promise.resolve();
    },
  } as unknown as ArchiveKeeper;
  return { keeper, batches, ended: () => ended, calls: () => calls };
}

function committerOn(keeper: ArchiveKeeper) {
  const troubles: (string | null)[] = [];
  const committer = new Committer(
    keeper,
    { pullId: 1, nextSeq: 0, isRecovered: false },
    { onCommitted: () => undefined, onTrouble: (trouble) => troubles.push(trouble?.message ?? null) },
  );
  return { committer, troubles };
}

/** The last batch of a record comes as it was gathered, those before it packed. */
const chunksOf = (batches: readonly (Batch | PackedBatch)[]): number[] =>
  batches.flatMap(({ chunks }) => {
    if (chunks === null) return [];
    if (!('count' in chunks)) return chunks.map((c) => c.chunkSeq);
    return Array.from({ length: chunks.count }, (_, i) => chunks.firstChunk + i);
  });

describe('commits', () => {
  it('keep every chunk once and in order, whichever call to the archive fails', async () => {
    for (let failing = 1; ; failing++) {
      const archive = faultyArchive([failing]);
      const { committer } = committerOn(archive.keeper);
      for (let seq = 0; seq < 9; seq++) {
        committer.addChunk(chunk(seq));
        if (seq % 3 === 2) await committer.flush();
      }
      await committer.flush();
      await committer.finish(END);
      if (!committer.isFinished) await committer.flush();
      expect(chunksOf(archive.batches)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
      expect(archive.ended()).toEqual(END);
      expect(committer.heldBytes).toBe(0);
      // Every call has failed once when a whole record went by untouched.
      if (failing > archive.calls()) break;
      expect(failing).toBeLessThan(20);
    }
  });

  it('tell the trouble once it comes and once it is over', async () => {
    const archive = faultyArchive([1, 2]);
    const { committer, troubles } = committerOn(archive.keeper);
    committer.addChunk(chunk(0));
    await committer.flush();
    expect(committer.isTroubled).toBe(false);
    expect(troubles).toEqual(['The disk is full.', 'The disk is full.', null]);
  });

  it('write the end only behind everything that came before it', async () => {
    const archive = faultyArchive([1]);
    const { committer } = committerOn(archive.keeper);
    committer.addChunk(chunk(0));
    await Promise.all([committer.flush(), committer.finish(END)]);
    committer.abandon();
    expect(chunksOf(archive.batches)).toEqual([0]);
    expect(archive.ended()).toEqual(END);
  });

  it('write a gap that began and ended since the last commit in one piece', async () => {
    const archive = faultyArchive([]);
    const { committer } = committerOn(archive.keeper);
    committer.addGap({ cause: 'silence', beforeSeq: 0, fromUs: 5, toUs: null, words: '' });
    committer.endGap(9);
    await committer.flush();
    committer.addGap({ cause: 'silence', beforeSeq: 0, fromUs: 20, toUs: null, words: '' });
    await committer.flush();
    committer.endGap(30);
    await committer.flush();
    expect(archive.batches.map((b) => [b.gaps.map((g) => g.toUs), b.gapEndedUs])).toEqual([
      [[9], null],
      [[null], null],
      [[], 30],
    ]);
  });

  it('do not wait a second time for what has waited its interval behind a slow commit', async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const answers: (() => void)[] = [];
    const batches: (Batch | PackedBatch)[] = [];
    const keeper = {
      call: (_name: string, batch: PackedBatch) => {
        batches.push(batch);
        return new Promise<void>((answer) => answers.push(answer));
      },
    } as unknown as ArchiveKeeper;
    const { committer } = committerOn(keeper);
    committer.addChunk(chunk(0));
    await vi.advanceTimersByTimeAsync(COMMIT_INTERVAL_MS);
    committer.addChunk(chunk(1));
    await vi.advanceTimersByTimeAsync(2 * COMMIT_INTERVAL_MS);
    expect(chunksOf(batches)).toEqual([0]);
    answers[0]?.();
    await vi.advanceTimersByTimeAsync(0);
    expect(chunksOf(batches)).toEqual([0, 1]);
  });
});

describe('a disk that takes longer than a power cut may cost (D9)', () => {
  it('makes commits late, of what waits and of what comes behind; in time again, or with nothing waiting, they are not', async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    let syncMs = 10 * COMMIT_INTERVAL_MS_MAX;
    const keeper = {
      call: () => new Promise((done) => setTimeout(done, syncMs)),
    } as unknown as ArchiveKeeper;
    const { committer } = committerOn(keeper);
    committer.addChunk(chunk(0));
    await vi.advanceTimersByTimeAsync(COMMIT_INTERVAL_MS_MAX);
    expect(committer.isLate).toBe(false);
    await vi.advanceTimersByTimeAsync(10);
    expect(committer.isLate).toBe(true);
    committer.addChunk(chunk(1));
    syncMs = 1;
    // The first is safe, too late; the second is under way at once.
    await vi.advanceTimersByTimeAsync(10 * COMMIT_INTERVAL_MS_MAX);
    expect([committer.heldBytes, committer.isLate]).toEqual([0, false]);
    committer.addChunk(chunk(2));
    await vi.advanceTimersByTimeAsync(2 * COMMIT_INTERVAL_MS_MAX);
    committer.addChunk(chunk(3));
    expect(committer.isLate).toBe(false);
  });
});
