/** A backup whose check ends in an error, or is stopped, leaves nothing behind, and no name that a backup has. */
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { partNameOf } from '../../../core/archive/left-parts.ts';
import type { ExchangeProgress } from '../../../core/contract/exchange-requests.ts';
import type { ArchiveKeeper } from '../../../electron/recorder/archive-keeper.ts';
import { takeBackup } from '../../../electron/recorder/take-backup.ts';
import { scratchFolder } from '../archive/made-archive.ts';

/** Has copied something; what it tells of the tables is handed to the thread that checks. */
const keeperOf = (to: string, ends: unknown): ArchiveKeeper =>
  ({
    callInSteps: (): Promise<unknown> => {
      writeFileSync(partNameOf(to), 'copied');
      return Promise.resolve(ends);
    },
  }) as unknown as ArchiveKeeper;

it('takes the copy away when the thread that checks it dies', async () => {
  const folder = scratchFolder();
  const to = join(folder, 'backup.gaugemark');
  const { signal } = new AbortController();
  // No list of tables: the thread throws before it looks at the copy.
  const dying = takeBackup(keeperOf(to, 'no list of tables'), to, { signal, tell: () => undefined });
  await expect(dying).rejects.toThrow();
  expect(readdirSync(folder)).toEqual([]);
});

it('is stopped before its check and in the middle of it, says so, and keeps no file', async () => {
  for (const isBefore of [true, false]) {
    const folder = scratchFolder();
    const to = join(folder, 'backup.gaugemark');
    const stop = new AbortController();
    const told: ExchangeProgress[] = [];
    const stopped = takeBackup(keeperOf(to, []), to, {
      signal: stop.signal,
      tell: (progress) => {
        told.push(progress);
        if (isBefore) stop.abort();
        else setImmediate(() => stop.abort());
      },
    });
    await expect(stopped).rejects.toThrow('The backup was stopped; no file of it was kept');
    expect(told).toEqual([{ work: 'backup-check', done: 0, of: 0 }]);
    expect(readdirSync(folder)).toEqual([]);
  }
});
