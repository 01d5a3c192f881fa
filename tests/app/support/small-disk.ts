/** A small disk of a test, and how to fill it. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, statfsSync, writeFileSync } from 'node:fs';
import { userInfo } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** Holds two spool segments and an archive, and little more. */
export const SMALL_DISK_MIB = 20;

/** A small disk of its own, or why there can't be one. */
export function smallDisk(folder: string): { path: string } | { skip: string } {
  if (process.platform !== 'linux' || userInfo().uid !== 0)
    return { skip: 'a small disk can be mounted only as root on Linux' };
  const path = join(folder, 'disk');
  mkdirSync(path);
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${SMALL_DISK_MIB}m`, 'tmpfs', path]);
  if (mounted.status !== 0) return { skip: `mount failed: ${mounted.stderr.toString().trim()}` };
  onTestFinished(() => void spawnSync('umount', ['-l', path]));
  return { path };
}

/** Takes all the room that is left; the recorder takes some too meanwhile, so it ends with the disk's own refusal. */
export function fill(path: string): void {
  const { bavail, bsize } = statfsSync(path);
  for (let piece = bavail * bsize; piece >= 1; piece = Math.floor(piece / 2))
    try {
      for (;;) writeFileSync(join(path, 'filler'), Buffer.alloc(piece), { flag: 'a' });
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'ENOSPC')) throw error;
    }
}
