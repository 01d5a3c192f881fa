/**
 * A backup that can't take the archive's place, or whose restore is killed: the archive stands where it stood, the backup
 * stands there, or it is said where the archive lies.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  cpSync,
  existsSync,
  linkSync,
  readFileSync,
  readdirSync,
  renameSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { expect, test } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { writeBackup } from '../../../core/archive/backup.ts';
import { takeBackRestore } from '../../../core/archive/cut-short-restore.ts';
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
async function killedBefore(
  move: number,
  backup: string,
  path: string,
  { hasSecondNames = true } = {},
): Promise<void> {
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
    const noLinks = () => { throw Object.assign(new Error('EPERM: link'), { code: 'EPERM' }); };
    const link = ${hasSecondNames ? 'counted(linkSync)' : 'noLinks'};
    restoreBackup(${JSON.stringify(backup)}, ${JSON.stringify(path)}, reading, { rename: counted(renameSync), link });`;
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

/** Where the file system knows no second names the archive, its spool and the copy are renamed, in this order. */
const RENAMES = 3;

/** What lies in the folder before the rename with this number, or behind the last one: what a kill there would leave. */
function leftBefore(move: number): ReturnType<typeof archiveAndBackup> {
  const its = archiveAndBackup();
  const left = scratchFolder();
  let moves = 0;
  const rename = (from: string, to: string): void => {
    if (moves++ === move) cpSync(its.folder, left, { recursive: true });
    renameSync(from, to);
    if (moves === RENAMES && move === RENAMES) cpSync(its.folder, left, { recursive: true });
  };
  restoreBackup(its.backup, its.path, READING, { rename, link: noLinks });
  const [path, backup] = [join(left, 'a.gaugemark'), join(left, 'backup.gaugemark')];
  return { folder: left, path, backup, bytes: its.bytes };
}

const asideIn = (folder: string): string =>
  join(folder, readdirSync(folder).find((name) => /before-restore-[^/]*Z$/.test(name)) ?? 'none');

test('D6: killed between its renames where there are no second names: the next start puts the archive back, whole, and begins no empty one', async () => {
  const killed = await Promise.all(
    [1, 2].map(async (move) => {
      const its = archiveAndBackup();
      await killedBefore(move, its.backup, its.path, { hasSecondNames: false });
      return its;
    }),
  );
  for (const { folder, path, backup, bytes } of killed) {
    expect(existsSync(path)).toBe(false);
    expect(readFileSync(asideIn(folder)).equals(bytes)).toBe(true);
    // Reading changes nothing, and says where it is.
    expect(refusal(() => pullsIn(path))).toContain(`the archive lies whole at ${asideIn(folder)}`);
    expect(existsSync(path)).toBe(false);
    const next = new Archive(path, READING);
    expect([next.info().pullCount, next.isTakenBack]).toEqual([2, true]);
    expect(next.check({}).sound).toBe(true);
    next.close();
    expect(readFileSync(`${path}-spool-a`, 'utf8')).toBe('spool');
    expect(readdirSync(folder).toSorted()).toEqual([
      'a.gaugemark',
      'a.gaugemark-spool-a',
      'backup.gaugemark',
    ]);
    const aside = restoreBackup(backup, path, READING, { rename: renameSync, link: noLinks }) ?? 'none';
    expect([pullsIn(path), pullsIn(aside)]).toEqual([1, 2]);
  }
});

test.each([
  [0, 2],
  [RENAMES, 1],
])('before rename %i of 3 something stands there, and the next start takes it as it is', (move, pulls) => {
  const { folder, path } = leftBefore(move);
  expect(existsSync(`${path}.restoring`)).toBe(true);
  const next = new Archive(path, READING);
  expect([next.info().pullCount, next.isTakenBack]).toEqual([pulls, false]);
  next.close();
  expect(readdirSync(folder).filter((name) => name.endsWith('.restoring'))).toEqual([]);
});

test('a restore made over one that was killed sets the archive aside that had stood there', () => {
  const { folder, path, backup } = leftBefore(2);
  const aside = restoreBackup(backup, path, READING) ?? 'none';
  expect([pullsIn(path), pullsIn(aside)]).toEqual([1, 2]);
  expect(readdirSync(folder).filter((name) => /part|restoring/.test(name))).toEqual([]);
});

test('an archive that still can not be put back is a sentence, and nothing is begun at its place', () => {
  const { folder, path } = leftBefore(1);
  const held = renaming((_from, to) => to === path);
  expect(refusal(() => takeBackRestore(path, held))).toContain(`it lies whole at ${asideIn(folder)}`);
  expect(existsSync(path)).toBe(false);
  // Who is renaming at this moment is waited for; a note that stands for long is of nobody at work.
  const note = `${path}.restoring`;
  const told = JSON.parse(readFileSync(note, 'utf8')) as object;
  writeFileSync(note, JSON.stringify({ ...told, pid: process.ppid }));
  expect(refusal(() => new Archive(path, READING))).toMatch(/put in the place .* by another program/);
  expect(existsSync(path)).toBe(false);
  utimesSync(note, 0, 0);
  const next = new Archive(path, READING);
  expect(next.info().pullCount).toBe(2);
  next.close();
});

test('a note that names a file of another folder moves nothing', () => {
  const { path: elsewhere, bytes } = archiveAndBackup();
  const path = join(scratchFolder(), 'a.gaugemark');
  const aside = relative(dirname(path), elsewhere);
  writeFileSync(`${path}.restoring`, JSON.stringify({ aside, pid: process.pid }));
  expect(takeBackRestore(path)).toBe(false);
  expect([existsSync(path), readFileSync(elsewhere).equals(bytes)]).toEqual([false, true]);
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
