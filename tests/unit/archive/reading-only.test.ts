/** Reading an archive changes nothing: not its bytes, not its dates, nothing beside it. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { ArchiveFault } from '../../../core/archive/archive-fault.ts';
import { writeBackup } from '../../../core/archive/backup.ts';
import { SPECIMEN, WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const toRead = (path: string): Archive =>
  new Archive(path, { programVersion: '9.9.9', wallMs: () => WALL_MS, purpose: 'read' });

function closedArchive(): string {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive);
  archive.close();
  return path;
}

/** Bytes and dates of everything in the folder. */
function traces(path: string): string[] {
  const folder = dirname(path);
  return readdirSync(folder).map((name) => {
    const stats = statSync(join(folder, name), { bigint: true });
    return [
      name,
      stats.mtimeNs,
      stats.mode,
      readFileSync(join(folder, name)).toString('base64').length,
      readFileSync(join(folder, name)).toString('latin1'),
    ].join(' ');
  });
}

/** A process that has ended. */
const gone = spawnSync(process.execPath, ['--version']).pid;

/** Copies are made in a folder of the test's own from here on; says which are left. */
function ownCopyFolder(): () => string[] {
  const folder = scratchFolder();
  vi.stubEnv('TMPDIR', folder);
  onTestFinished(() => {
    vi.unstubAllEnvs();
  });
  return () => readdirSync(folder).filter((name) => name.startsWith('gaugemark-reading-'));
}

function readEverything(archive: Archive): void {
  expect(archive.info().pullCount).toBe(1);
  expect(archive.listPulls({ limit: 10 }).items.length).toBe(1);
  expect(archive.curve(1).curve.length).toBe(100);
  expect(archive.check({}).sound).toBe(true);
  const copy = join(scratchFolder(), 'copy.gaugemark');
  writeBackup(archive.connection, copy);
  expect(openArchive(copy).info().pullCount).toBe(1);
}

describe('an archive that is read', () => {
  it.each([
    ['that could be written to', 0, () => undefined],
    ['whose file is write-protected', 1, (path: string) => chmodSync(path, 0o444)],
    ['whose folder is write-protected', 1, (path: string) => chmodSync(dirname(path), 0o555)],
  ])('%s gives everything and stays as it was', (_, copyCount, protect) => {
    const path = closedArchive();
    protect(path);
    const before = traces(path);
    const copiesLeft = ownCopyFolder();
    const archive = toRead(path);
    expect(copiesLeft().length).toBe(copyCount);
    readEverything(archive);
    archive.close();
    expect(traces(path)).toEqual(before);
    expect(copiesLeft()).toEqual([]);
    chmodSync(dirname(path), 0o700);
  });

  it('by way of a copy takes away the copies that others were killed over, and no others', () => {
    const path = closedArchive();
    chmodSync(path, 0o444);
    const copiesLeft = ownCopyFolder();
    const folder = process.env['TMPDIR'] ?? '';
    const alive = `gaugemark-reading-${String(process.ppid)}-b`;
    for (const name of [`gaugemark-reading-${String(gone)}-a`, alive]) {
      mkdirSync(join(folder, name));
      writeFileSync(join(folder, name, 'archive'), 'half');
    }
    toRead(path).close();
    expect(copiesLeft()).toEqual([alive]);
  });

  it('takes nothing in', () => {
    const archive = toRead(closedArchive());
    const refused = (act: () => unknown): string => {
      try {
        act();
      } catch (error) {
        if (error instanceof ArchiveFault) return error.code;
      }
      return 'no fault';
    };
    expect(refused(() => archive.saveSpecimen({ specimen: SPECIMEN }))).toBe('archive-read-only');
    // A backup lets the connection write for a moment, to another file.
    writeBackup(archive.connection, join(scratchFolder(), 'copy.gaugemark'));
    expect(refused(() => archive.saveSpecimen({ specimen: SPECIMEN }))).toBe('archive-read-only');
    archive.close();
  });

  it('is told as damaged where it is, and the copy of it goes away', () => {
    const path = closedArchive();
    const bytes = readFileSync(path);
    bytes.fill(0xa5, 4096 * 2, 4096 * 4);
    writeFileSync(path, bytes);
    chmodSync(path, 0o444);
    const copiesLeft = ownCopyFolder();
    expect(() => toRead(path)).toThrow(/The archive .*a\.gaugemark is damaged/);
    expect(readFileSync(path).equals(bytes)).toBe(true);
    expect(copiesLeft()).toEqual([]);
  });
});
