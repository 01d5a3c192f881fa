/** A backup whose check ends in an error leaves nothing behind, and no name that a backup has. */
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { unfinishedCopy } from '../../../core/archive/backup-in-steps.ts';
import type { ArchiveKeeper } from '../../../electron/recorder/archive-keeper.ts';
import { takeBackup } from '../../../electron/recorder/take-backup.ts';
import { scratchFolder } from '../archive/made-archive.ts';

it('takes the copy away when the thread that checks it dies', async () => {
  const folder = scratchFolder();
  const to = join(folder, 'backup.gaugemark');
  // What the thread is handed is no list of tables: it throws before it looks at the copy.
  const keeper = {
    call: (): Promise<unknown> => {
      writeFileSync(unfinishedCopy(to), 'copied');
      return Promise.resolve('no list of tables');
    },
  } as unknown as ArchiveKeeper;
  await expect(takeBackup(keeper, to)).rejects.toThrow();
  expect(readdirSync(folder)).toEqual([]);
});
