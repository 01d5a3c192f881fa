/**
 * Loaded before the recorder (`--import`), in its main thread and in its archive's thread: times each commit in both,
 * without a line in the program for it. The times are written to the file that GAUGEMARK_COMMIT_TIMES names when the
 * recorder ends.
 */
import { writeFileSync } from 'node:fs';
import { BroadcastChannel, isMainThread } from 'node:worker_threads';
import { z } from 'zod';
import { Archive } from '../../../core/archive/archive.ts';
import { ArchiveKeeper } from '../../../electron/recorder/archive-keeper.ts';

/** When it was over, on the wall clock, and how long it took. */
const timed = z.strictObject({ endedMs: z.number(), tookMs: z.number() });
export const commitTimes = z.strictObject({
  /** The transaction with its sync, in the archive's thread. */
  inThread: z.array(timed),
  /** With the way to that thread and back, as the recorder waits for it. */
  waitedFor: z.array(timed),
});
export type CommitTimes = z.infer<typeof commitTimes>;

const file = process.env['GAUGEMARK_COMMIT_TIMES'];
const channel = new BroadcastChannel('gaugemark-commit-times');
channel.unref();

const since = (from: number): z.infer<typeof timed> => {
  const now = performance.now();
  return { endedMs: performance.timeOrigin + now, tookMs: now - from };
};

if (file !== undefined && isMainThread) {
  const times: CommitTimes = { inThread: [], waitedFor: [] };
  channel.onmessage = (event) => {
    times.inThread.push(timed.parse((event as { data: unknown }).data));
  };
  const call = Object.getOwnPropertyDescriptor(ArchiveKeeper.prototype, 'call')?.value as (
    this: ArchiveKeeper,
    ...args: unknown[]
  ) => Promise<unknown>;
  Object.defineProperty(ArchiveKeeper.prototype, 'call', {
    value: async function (this: ArchiveKeeper, ...args: unknown[]): Promise<unknown> {
      const from = performance.now();
      const answer = await call.apply(this, args);
      if (args[0] === 'appendPacked') times.waitedFor.push(since(from));
      return answer;
    },
  });
  process.on('exit', () => writeFileSync(file, JSON.stringify(times)));
}
if (file !== undefined && !isMainThread) {
  const append = Object.getOwnPropertyDescriptor(Archive.prototype, 'appendPacked')?.value as (
    this: Archive,
    ...args: unknown[]
  ) => void;
  const tend = Object.getOwnPropertyDescriptor(Archive.prototype, 'tendLog')?.value as (
    this: Archive,
  ) => void;
  let told: z.infer<typeof timed> | null = null;
  Object.defineProperty(Archive.prototype, 'appendPacked', {
    value: function (this: Archive, ...args: unknown[]): void {
      const from = performance.now();
      append.apply(this, args);
      told = since(from);
    },
  });
  // Told behind the answer, so that telling it is not waited for.
  Object.defineProperty(Archive.prototype, 'tendLog', {
    value: function (this: Archive): void {
      tend.call(this);
      if (told !== null) channel.postMessage(told);
      told = null;
    },
  });
}
