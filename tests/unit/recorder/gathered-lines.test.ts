/** What comes closely is written down at once and parsed together a moment later; whoever looks sees all of it. */
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { newPull } from '../../../core/pull/pull-state.ts';
import type { ArchiveKeeper } from '../../../electron/recorder/archive-keeper.ts';
import { Committer } from '../../../electron/recorder/committer.ts';
import { GATHERED_MS, Recording } from '../../../electron/recorder/recording.ts';
import type { Spool } from '../../../electron/recorder/spool.ts';
import { loadProfile } from './played-readout.ts';

const MS = 1_000;
const line = (load: number): Uint8Array => Buffer.from(`${load}\r\n`);

/** A record on nothing but memory; `written` is what its spool was handed, `read` what was parsed. */
function recordInMemory() {
  vi.useFakeTimers();
  onTestFinished(() => {
    vi.useRealTimers();
  });
  const written: string[] = [];
  const read: string[] = [];
  const keeper = { call: () => Promise.resolve() } as unknown as ArchiveKeeper;
  const committer = new Committer(
    keeper,
    { pullId: 1, nextSeq: 0, isRecovered: false },
    { onCommitted: () => undefined, onTrouble: () => undefined },
  );
  const profile = loadProfile();
  const record = new Recording(
    {
      pullId: 1,
      specimenId: 1,
      specimenName: 'P-1',
      startedWallMs: 0,
      startedUs: 0,
      profile,
      second: null,
      plannedForceN: null,
      plannedExtensionMm: null,
      state: newPull({
        trigger: { kind: 'by-hand' },
        breakRule: { kind: 'by-hand' },
        tailS: null,
        heldOpenS: null,
      }),
      marks: [],
      gaps: [],
      chunkCount: 0,
      openingCounts: [1],
      zeros: new Map(),
      rangeLimits: [],
      isRecovered: false,
    },
    committer,
    {
      onLine: ({ bytes }) => read.push(Buffer.from(bytes).toString('latin1')),
      onStep: () => undefined,
      onSpoolTrouble: () => undefined,
      onLoss: () => undefined,
      onRangePassed: () => undefined,
    },
  );
  record.useSpool({
    append: ({ bytes }: { bytes: Uint8Array }) => written.push(Buffer.from(bytes).toString('latin1')),
    release: () => undefined,
  } as unknown as Spool);
  return { record, committer, written, read };
}

describe('lines that follow each other closely', () => {
  it('are in the spool at once, and parsed together at the latest after GATHERED_MS', () => {
    const { record, written, read } = recordInMemory();
    for (let i = 0; i < 5; i++) record.takeChunk(0, line(i), 100 * MS + i * MS);
    expect(written).toEqual(['0\r\n', '1\r\n', '2\r\n', '3\r\n', '4\r\n']);
    // The first came after a pause.
    expect(read).toEqual(['0']);
    vi.advanceTimersByTime(GATHERED_MS);
    expect(read).toEqual(['0', '1', '2', '3', '4']);
  });

  it('are parsed each at once where there is as much as a pause between them', () => {
    const { record, read } = recordInMemory();
    for (let i = 0; i < 3; i++) {
      record.takeChunk(0, line(i), 100 * MS + i * GATHERED_MS * MS);
      expect(read.length).toBe(i + 1);
    }
  });

  it('keep the times at which they came, and their chunks', async () => {
    const { record, committer } = recordInMemory();
    for (let i = 0; i < 4; i++) record.takeChunk(0, line(i), 100 * MS + i * MS);
    record.catchUp();
    const seen = record.view.from(0).readings.map(({ elapsedUs, reading }) => [elapsedUs, reading.chunkSeq]);
    expect(seen).toEqual([
      [100 * MS, 0],
      [101 * MS, 1],
      [102 * MS, 2],
      [103 * MS, 3],
    ]);
    expect(committer.heldReadings.length).toBe(4);
    await committer.flush();
    expect(committer.heldBytes).toBe(0);
  });

  it('stand before whatever is done or marked after them', () => {
    const { record } = recordInMemory();
    for (let i = 0; i < 4; i++) record.takeChunk(0, line(i), 100 * MS + i * MS);
    expect(record.act('start').ok).toBe(true);
    expect(record.marks.at(-1)).toMatchObject({ kind: 'trigger', seq: 4 });
    for (let i = 4; i < 7; i++) record.takeChunk(0, line(i), 100 * MS + i * MS);
    expect(record.beginGap('silence', 0, 'no reading')).toBe(true);
    expect(record.gaps.at(-1)?.beforeSeq).toBe(7);
    record.takeChunk(0, line(7), 107 * MS);
    expect(record.lastReadingUs(0)).toBe(107 * MS);
  });

  it('that come after the end of the record belong to none, and those before it are all in it', () => {
    const { record, read } = recordInMemory();
    record.takeChunk(0, line(0), 100 * MS);
    record.takeChunk(0, line(1), 101 * MS);
    expect(record.act('start').ok).toBe(true);
    record.takeChunk(0, line(2), 102 * MS);
    expect(record.act('close').ok).toBe(true);
    record.takeChunk(0, line(3), 103 * MS);
    vi.advanceTimersByTime(10 * GATHERED_MS);
    expect(read).toEqual(['0', '1', '2']);
    expect(record.state.nextSeq).toBe(3);
  });

  it('are not waited for where there are many', () => {
    const { record, read } = recordInMemory();
    record.takeChunk(0, line(0), 100 * MS);
    const many = Buffer.from('1.5\r\n'.repeat(4_000));
    record.takeChunk(0, many, 101 * MS);
    expect(read.length).toBe(4_001);
  });
});
