/** A copy of an open archive without its log: known as what it is, never taken for a backup; whole files never suspected. */
import { copyFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { planRestore } from '../../../core/archive/restore-backup.ts';
import { writeBackup } from '../../../core/archive/backup.ts';
import { mergeFrom } from '../../../electron/recorder/merge-from.ts';
import { UNWATCHED } from '../../../electron/recorder/long-work.ts';
import { keptPull, openArchive, scratchFolder } from './made-archive.ts';

const READING = { programVersion: '9.9.9', wallMs: Date.now };
const isHalf = (path: string, purpose: 'read' | 'record'): boolean => {
  const archive = new Archive(path, { ...READING, purpose });
  try {
    return archive.isHalfCopy;
  } finally {
    archive.close();
  }
};

it('is told when it is read and when it is recorded into, and refused as a backup and as what is taken in (D6)', () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const before = openArchive(path);
  before.checkpoint();
  keptPull(before);
  const half = join(folder, 'half.gaugemark');
  copyFileSync(path, half);
  const whole = join(folder, 'whole.gaugemark');
  copyFileSync(path, whole);
  copyFileSync(`${path}-wal`, `${whole}-wal`);
  const backup = join(folder, 'backup.gaugemark');
  writeBackup(before.connection, backup);
  before.close();

  expect(isHalf(half, 'read')).toBe(true);
  const read = new Archive(half, { ...READING, purpose: 'read' });
  expect(read.check({})).toMatchObject({ sound: false });
  read.close();
  expect(() => planRestore(half, path, READING)).toThrow(
    /copied while it was open.*Copy both files together/,
  );
  const into = openArchive(path);
  expect(() => mergeFrom(into, half, false, UNWATCHED)).toThrow(/copied while it was open/);
  into.close();
  expect(isHalf(half, 'record')).toBe(true);

  for (const sound of [whole, backup, path]) {
    expect(isHalf(sound, 'read'), sound).toBe(false);
    // Read in place a file may go over to log mode; it is still whole.
    expect(isHalf(sound, 'read'), sound).toBe(false);
    expect(isHalf(sound, 'record'), sound).toBe(false);
    expect(isHalf(sound, 'record'), sound).toBe(false);
  }
  expect(existsSync(`${path}-wal`)).toBe(false);
});
