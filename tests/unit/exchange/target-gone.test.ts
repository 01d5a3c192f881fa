/** Where an export or a backup goes to is taken away: a stick that is pulled, a folder that is removed, a share that answers no more. */
import { spawnSync } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readdirSync, renameSync } from 'node:fs';
import { userInfo } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { writeBackup } from '../../../core/archive/backup.ts';
import { copyInSteps, keepCopy } from '../../../core/archive/backup-in-steps.ts';
import { writeWholeText } from '../../../electron/exports/whole-text.ts';
import { keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';

interface Target {
  readonly path: string;
  readonly takeAway: () => void;
}

const isRootOnLinux = process.platform === 'linux' && userInfo().uid === 0;

/** Pulled while it is in use: what is open stays open, its path leads to an empty folder. Null where nothing can be mounted. */
function stick(): Target | null {
  const path = join(scratchFolder(), 'stick');
  mkdirSync(path);
  if (!isRootOnLinux || spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=20m', 'tmpfs', path]).status !== 0)
    return null;
  const takeAway = (): void => void spawnSync('umount', ['-l', path]);
  onTestFinished(takeAway);
  return { path, takeAway };
}

function folder(): Target {
  const parent = scratchFolder();
  const path = join(parent, 'folder');
  mkdirSync(path);
  return { path, takeAway: () => renameSync(path, join(parent, 'elsewhere')) };
}

/** A file system served by a program that has ended, as a share is whose server is gone: whatever is asked is refused. */
function deadShare(): string | null {
  if (!isRootOnLinux) return null;
  const path = join(scratchFolder(), 'share');
  mkdirSync(path);
  let served: number;
  try {
    served = openSync('/dev/fuse', 'r+');
  } catch {
    return null;
  }
  const options = 'fd=3,rootmode=40000,user_id=0,group_id=0';
  const mounted = spawnSync('mount', ['-i', '-t', 'fuse', '-o', options, 'gone', path], {
    stdio: ['ignore', 'ignore', 'ignore', served],
  });
  closeSync(served);
  if (mounted.status !== 0) return null;
  onTestFinished(() => void spawnSync('umount', ['-l', path]));
  return path;
}

describe.each([
  ['a stick that is pulled', stick],
  ['a folder that is removed', folder],
])('%s', (_what, target) => {
  it('while an export is written: that is said, and nothing that looks whole is there', (context) => {
    const to = target();
    if (to === null) return context.skip('a disk can be mounted only as root on Linux');
    function* pieces(): Generator<string> {
      yield 'x'.repeat(2_000_000);
      to?.takeAway();
      yield 'y';
    }
    expect(() => writeWholeText(pieces(), join(to.path, 'curve.csv'))).toThrow(
      /gone again .* medium was pulled/,
    );
    mkdirSync(to.path, { recursive: true });
    expect(readdirSync(to.path)).toEqual([]);
  });

  it('before a backup is checked: that is said, and the archive is as it was', async (context) => {
    const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
    keptPull(archive);
    const to = target();
    if (to === null) return context.skip('a disk can be mounted only as root on Linux');
    const file = join(to.path, 'b.gaugemark');
    const counts = await copyInSteps(archive.connection, file);
    to.takeAway();
    expect(() => keepCopy(file, counts)).toThrow(/backup is gone again .* archive is untouched/);
    expect(archive.check({}).sound).toBe(true);
  });
});

it('a share that answers no more is said to give an error, whatever is to be written there or read from it', async (context) => {
  const share = deadShare();
  if (share === null) return context.skip('such a share can be made only as root on Linux with FUSE');
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const there = join(share, 'x');
  expect(() => writeWholeText(['x'], there)).toThrow(/medium that holds .* gave an error, so the export/);
  expect(() => writeBackup(archive.connection, there)).toThrow(
    /medium that holds .* gave an error, so the backup/,
  );
  await expect(copyInSteps(archive.connection, there)).rejects.toThrow(
    /medium that holds .* gave an error, so the backup/,
  );
  expect(() => openArchive(there)).toThrow(/medium that holds .* gave an error \(ENOTCONN\)/);
});
