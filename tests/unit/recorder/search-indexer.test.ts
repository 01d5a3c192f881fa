/** What is done in the background for searches: the index first, then what is held in memory, never while a record is open. */
import { afterEach, expect, test, vi } from 'vitest';
import type { ArchiveKeeper } from '../../../electron/recorder/archive-keeper.ts';
import type { NoticeBoard } from '../../../electron/recorder/notice-board.ts';
import { SearchIndexer } from '../../../electron/recorder/search-indexer.ts';

let nowMs = 0;
const clock = vi.spyOn(performance, 'now');
afterEach(() => clock.mockRestore());

test('the index is made, then searches are held in memory once the window has its answers, and looked after from then on', async () => {
  clock.mockImplementation(() => nowMs);
  let isRecording = false;
  const calls: string[] = [];
  let stepsLeft = 3;
  let savedLeft = 2;
  const archive = {
    call: (name: string) => {
      calls.push(name);
      if (name === 'goOnTakingOver') return Promise.resolve(--savedLeft > 0);
      if (name === 'goOnHolding') return Promise.resolve(--stepsLeft > 0);
      return Promise.resolve(name === 'tidyIndex' ? false : null);
    },
  } as unknown as ArchiveKeeper;
  const bugs: unknown[] = [];
  const indexer = new SearchIndexer({
    archive: () => archive,
    isRecording: () => isRecording,
    mayTidy: true,
    notices: { raise: () => undefined, over: () => undefined } as unknown as NoticeBoard,
    onBug: (error) => bugs.push(error),
  });
  const lookedAt = async (ms: number): Promise<string[]> => {
    nowMs = ms;
    const before = calls.length;
    indexer.look();
    for (let i = 0; i < 20; i++) await Promise.resolve();
    return calls.slice(before);
  };
  expect(await lookedAt(0)).toEqual([
    'indexProgress',
    'tidyIndex',
    // What was saved of the last time, without waiting.
    'goOnTakingOver',
    'goOnTakingOver',
  ]);
  expect(await lookedAt(100), 'the start comes first').toEqual([]);
  isRecording = true;
  expect(await lookedAt(60_000), 'never during a record').toEqual([]);
  isRecording = false;
  expect(await lookedAt(60_100)).toEqual(['goOnHolding', 'goOnHolding', 'goOnHolding']);
  expect(await lookedAt(60_200)).toEqual([]);
  stepsLeft = 1;
  expect(await lookedAt(62_000), 'what was said meanwhile is taken over').toEqual(['goOnHolding']);
  expect(bugs).toEqual([]);
});
