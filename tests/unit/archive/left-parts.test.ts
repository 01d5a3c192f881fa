/** What a killed backup, restore or export had begun is taken away by the next one of the same file. */
import { spawnSync } from 'node:child_process';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { writeBackup } from '../../../core/archive/backup.ts';
import { copyInSteps, dropUnfinishedCopy } from '../../../core/archive/backup-in-steps.ts';
import { discardLeftOf } from '../../../core/archive/left-parts.ts';
import { restoreBackup } from '../../../core/archive/restore-backup.ts';
import { backupMoment } from '../../../core/exchange/backup-ages.ts';
import { writeWholeBytes } from '../../../electron/exports/whole-bytes.ts';
import { writeWholeText } from '../../../electron/exports/whole-text.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

/** Processes that have ended, and one that is there. */
const gone = spawnSync(process.execPath, ['--version']).pid;
const alive = process.ppid;
const leave = (folder: string, ...names: string[]): void => {
  for (const name of names) writeFileSync(join(folder, name), 'half');
};
const parts = (folder: string): string[] => readdirSync(folder).filter((name) => name.includes('.part-'));

it('whoever writes a file again takes its left parts away, and nobody else’s', async () => {
  const home = scratchFolder();
  const archive = openArchive(join(home, 'a.gaugemark'));
  keptPull(archive, 5, 100);
  const backup = join(home, 'backup.gaugemark');
  writeBackup(archive.connection, backup);
  const kept = [
    `x.csv.part-${String(alive)}`,
    `y.csv.part-${String(gone)}`,
    `x.csv.part-${String(gone)}.txt`,
  ];
  const ways: readonly ((path: string) => unknown)[] = [
    (path) => writeBackup(archive.connection, path),
    async (path) => {
      await copyInSteps(archive.connection, path);
      dropUnfinishedCopy(path);
    },
    (path) => restoreBackup(backup, path, { programVersion: '9.9.9', wallMs: () => WALL_MS }),
    (path) => writeWholeText(['a,b\n'], path),
    (path) => writeWholeBytes({ path, bytes: new Uint8Array(3), what: 'table' }),
  ];
  for (const write of ways) {
    const folder = scratchFolder();
    leave(folder, ...kept, `x.csv.part-${String(gone)}`, `x.csv.part-${String(gone)}-wal`);
    await write(join(folder, 'x.csv'));
    expect(parts(folder).toSorted()).toEqual(kept.toSorted());
  }
});

it('of dated backups those of any moment, of this archive only', () => {
  const folder = scratchFolder();
  const dated = (name: string): string => `${name}-2026-03-04T09-30-00Z.gaugemark`;
  const others = [
    `${dated('b')}.part-${String(gone)}`,
    `${dated('a')}.part-${String(alive)}`,
    `a.txt.part-${String(gone)}`,
  ];
  leave(
    folder,
    ...others,
    `${dated('a')}.part-${String(gone)}`,
    `${dated('a')}.part-${String(gone)}-journal`,
  );
  discardLeftOf(folder, (whole) => backupMoment('a.gaugemark', whole) !== null);
  expect(parts(folder).toSorted()).toEqual(others.toSorted());
});
