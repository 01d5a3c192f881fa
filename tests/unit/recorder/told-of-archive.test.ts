/** What a recorder tells of the archive's log when it has grown far past its room, and of a restore that was taken back. */
import { readFileSync, renameSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { noteRestore } from '../../../core/archive/cut-short-restore.ts';
import { WAL_BYTES_MAX } from '../../../core/limits.ts';
import { ArchiveHolder } from '../../../electron/recorder/archive-holder.ts';
import { NoticeBoard } from '../../../electron/recorder/notice-board.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';

function holderOf(archivePath: string): {
  holder: ArchiveHolder;
  told: (code: string) => string | undefined;
} {
  const notices = new NoticeBoard(
    () => undefined,
    () => WALL_MS,
  );
  const holder = new ArchiveHolder({
    archivePath,
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    notices,
    log: () => undefined,
    onBug: (error) => {
      throw error;
    },
    onProgress: () => undefined,
    onGone: () => undefined,
  });
  onTestFinished(() => holder.close({ spoolIsNeeded: false }));
  return { holder, told: (code) => notices.standing.find((notice) => notice.code === code)?.sentence };
}

const nothingOpen = (): Promise<void> => Promise.resolve();

function archiveWithPull(): string {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive);
  archive.close();
  return path;
}

test('D8: a log that could not be taken in for long is told with its size until it has its room again', async () => {
  const path = archiveWithPull();
  const { holder, told } = holderOf(path);
  await holder.open(nothingOpen);
  // What stands behind the last frame means nothing to the database.
  truncateSync(`${path}-wal`, 3 * WAL_BYTES_MAX);
  await holder.lookAtFreeSpace();
  expect(told('archive-log-large')).toMatch(/^The log beside the archive has 192 MiB, .* Nothing is lost;/);
  truncateSync(`${path}-wal`, WAL_BYTES_MAX);
  await holder.lookAtFreeSpace();
  expect(told('archive-log-large')).toBeUndefined();
});

test('D6: a start that takes back a restore says so, and has the archive as it was', async () => {
  const path = archiveWithPull();
  const bytes = readFileSync(path);
  const aside = `${path}.before-restore-now`;
  noteRestore(path, aside);
  renameSync(path, aside);
  const { holder, told } = holderOf(path);
  await holder.open(nothingOpen);
  expect(holder.fault).toBeNull();
  expect(told('archive-restore-taken-back')).toMatch(/^A restore of .* was cut short .* restore again/);
  expect(readFileSync(path).length).toBe(bytes.length);
  expect((await holder.keeper.call('info')).pullCount).toBe(1);
});
