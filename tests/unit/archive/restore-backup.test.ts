/** A backup that can't take the archive's place: the archive stands where it stood, or it is said where it lies. */
import { existsSync, readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeBackup } from '../../../core/archive/backup.ts';
import { restoreBackup } from '../../../core/archive/restore-backup.ts';
import { setArchiveAside } from '../../../core/archive/set-aside.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const READING = { programVersion: '9.9.9', wallMs: () => WALL_MS };

function archiveAndBackup() {
  const folder = scratchFolder();
  const [path, backup] = [join(folder, 'a.gaugemark'), join(folder, 'backup.gaugemark')];
  const archive = openArchive(path);
  keptPull(archive, 5, 100);
  writeBackup(archive.connection, backup);
  keptPull(archive, 5, 100);
  archive.close();
  writeFileSync(`${path}-spool-a`, 'spool');
  return { folder, path, backup, bytes: readFileSync(path) };
}

/** Fails wherever `isHeld` says so. */
const renaming =
  (isHeld: (from: string, to: string) => boolean) =>
  (from: string, to: string): void => {
    if (isHeld(from, to)) throw Object.assign(new Error(`EBUSY: ${from}`), { code: 'EBUSY' });
    renameSync(from, to);
  };

function refusal(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
  return 'it was done';
}

test('where the last rename fails the archive is put back with what belongs to it', () => {
  const { folder, path, backup, bytes } = archiveAndBackup();
  const held = renaming((from) => from.includes('.part-'));
  expect(refusal(() => restoreBackup(backup, path, READING, held))).toMatch(
    /stands where it stood, unchanged/,
  );
  expect(readFileSync(path).equals(bytes)).toBe(true);
  expect(readFileSync(`${path}-spool-a`, 'utf8')).toBe('spool');
  expect(readdirSync(folder).filter((name) => /part|before-restore/.test(name))).toEqual([]);
});

test('where it can not be put back either, the sentence names the file in which it lies', () => {
  const { folder, path, backup, bytes } = archiveAndBackup();
  const held = renaming((_from, to) => to === path);
  const said = refusal(() => restoreBackup(backup, path, READING, held));
  const aside = readdirSync(folder).find((name) => /before-restore-[^/]*Z$/.test(name)) ?? 'none';
  expect(said).toContain(`it lies whole at ${join(folder, aside)}, with its log and spools beside it`);
  expect(readFileSync(join(folder, aside)).equals(bytes)).toBe(true);
  expect(existsSync(join(folder, `${aside}-spool-a`))).toBe(true);
  expect(existsSync(path)).toBe(false);
});

test('an archive of which a part can not be set aside keeps its name', () => {
  const { folder, path, bytes } = archiveAndBackup();
  const held = renaming((from) => from.endsWith('-spool-a'));
  expect(() => setArchiveAside(path, WALL_MS, 'damaged', held)).toThrow('EBUSY');
  expect(readFileSync(path).equals(bytes)).toBe(true);
  expect(readdirSync(folder).filter((name) => name.includes('damaged'))).toEqual([]);
});
