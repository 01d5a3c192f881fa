/**
 * A backup that can't take the archive's place, or whose restore is killed: the archive stands where it stood, the backup
 * stands there, or it is said where the archive lies.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, linkSync, readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
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

/** As file systems without second names answer. */
const noLinks = (): never => {
  throw Object.assign(new Error('EPERM: link'), { code: 'EPERM' });
};

function refusal(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
  return 'it was done';
}

test.each([
  ['with a second name', linkSync],
  ['where there are no second names', noLinks],
])('where the last rename fails the archive stands with what belongs to it: %s', (_how, link) => {
  const { folder, path, backup, bytes } = archiveAndBackup();
  const rename = renaming((from) => from.includes('.part-'));
  expect(refusal(() => restoreBackup(backup, path, READING, { rename, link }))).toMatch(
    /stands where it stood, unchanged/,
  );
  expect(readFileSync(path).equals(bytes)).toBe(true);
  expect(readFileSync(`${path}-spool-a`, 'utf8')).toBe('spool');
  expect(readdirSync(folder).filter((name) => /part|before-restore/.test(name))).toEqual([]);
});

test('where it can not be put back either, the sentence names the file in which it lies', () => {
  const { folder, path, backup, bytes } = archiveAndBackup();
  const rename = renaming((_from, to) => to === path);
  const said = refusal(() => restoreBackup(backup, path, READING, { rename, link: noLinks }));
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

/** How many pulls it has, once it was found sound. */
function pullsIn(path: string): number {
  const archive = new Archive(path, { ...READING, purpose: 'read' });
  try {
    expect(archive.check({}).sound).toBe(true);
    return archive.info().pullCount;
  } finally {
    archive.close();
  }
}

/** A restore in a process that kills itself before the move with this number, or behind the last one. */
async function killedBefore(move: number, backup: string, path: string): Promise<void> {
  const program = `
    const { linkSync, renameSync } = await import('node:fs');
    const { restoreBackup } = await import(${JSON.stringify(new URL('../../../core/archive/restore-backup.ts', import.meta.url).href)});
    let moves = 0;
    const counted = (work) => (from, to) => {
      if (moves++ === ${String(move)}) process.kill(process.pid, 'SIGKILL');
      work(from, to);
      if (moves === ${String(move)} && work === renameSync) process.kill(process.pid, 'SIGKILL');
    };
    const reading = { programVersion: '9.9.9', wallMs: () => ${String(WALL_MS)} };
    restoreBackup(${JSON.stringify(backup)}, ${JSON.stringify(path)}, reading, { rename: counted(renameSync), link: counted(linkSync) });`;
  const child = spawn(process.execPath, ['--input-type=module', '-e', program], { stdio: 'ignore' });
  await once(child, 'close');
  expect(child.signalCode).toBe('SIGKILL');
}

test('D6: killed at any of its moves, a restore leaves the archive or the backup in that place, whole, and the next one leaves nothing else', async () => {
  const both = await Promise.all(
    [0, 1, 2].map(async (move) => {
      const its = archiveAndBackup();
      const copied = readFileSync(its.backup);
      await killedBefore(move, its.backup, its.path);
      expect(readFileSync(its.backup).equals(copied)).toBe(true);
      return its;
    }),
  );
  expect(both.map(({ path }) => pullsIn(path))).toEqual([2, 2, 1]);
  for (const [move, { folder, path, backup, bytes }] of both.entries()) {
    restoreBackup(backup, path, READING);
    expect(pullsIn(path)).toBe(1);
    const names = readdirSync(folder).filter((name) => name !== 'a.gaugemark' && name !== 'backup.gaugemark');
    const aside = names.filter((name) => /before-restore-[^/]*Z(?:-\d)?$/.test(name));
    expect(aside).toHaveLength(move === 2 ? 2 : 1);
    const [first = 'none'] = aside.toSorted();
    expect(readFileSync(join(folder, first)).equals(bytes)).toBe(true);
    expect(readFileSync(join(folder, `${first}-spool-a`), 'utf8')).toBe('spool');
    expect(names.filter((name) => name.includes('.part-'))).toEqual([]);
    expect(existsSync(`${path}-spool-a`)).toBe(false);
  }
});

test('what a killed program left in the log of the archive comes aside with it', () => {
  const { path, backup, folder } = archiveAndBackup();
  const archive = new Archive(path, { ...READING });
  keptPull(archive, 5, 100);
  // As a killed process leaves them: everything still in the log.
  const left = ['', '-wal'].map((end) => readFileSync(path + end));
  archive.close();
  for (const [index, end] of ['', '-wal'].entries()) writeFileSync(path + end, left[index] ?? '');
  const aside = restoreBackup(backup, path, READING) ?? 'none';
  expect([pullsIn(path), pullsIn(aside)]).toEqual([1, 3]);
  expect(readdirSync(folder).filter((name) => name.endsWith('-wal'))).toEqual([]);
});
