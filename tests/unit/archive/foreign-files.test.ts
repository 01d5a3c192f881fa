/** Files that are no archive of ours stay byte for byte as they were, whoever opens them and for what. */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { ArchiveFault } from '../../../core/archive/archive-fault.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const PURPOSES = ['record', 'read'] as const;
type Purpose = (typeof PURPOSES)[number];

function faultOfOpening(path: string, purpose: Purpose): ArchiveFault {
  try {
    new Archive(path, { programVersion: '9.9.9', wallMs: () => WALL_MS, purpose }).close();
  } catch (error) {
    if (error instanceof ArchiveFault) return error;
    throw error;
  }
  throw new Error('the archive was opened');
}

/** Every file of the folder with its bytes. */
function folderOf(path: string): ReadonlyMap<string, string> {
  const folder = dirname(path);
  return new Map(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'latin1')]));
}

/** A database as any program makes one: neither an application id nor a version. */
function catsDatabase(journalMode: 'delete' | 'wal'): string {
  const path = join(scratchFolder(), 'cats.db');
  const cats = new Database(path);
  cats.pragma(`journal_mode = ${journalMode}`);
  cats.exec("CREATE TABLE cats (name TEXT); INSERT INTO cats VALUES ('Minka')");
  cats.close();
  return path;
}

/** The files as a killed program leaves them: everything still in the log, the main file without any table. */
function leftInLog(path: string, fill: (database: Database.Database) => void): string {
  const database = new Database(path);
  database.pragma('locking_mode = EXCLUSIVE');
  database.pragma('journal_mode = WAL');
  fill(database);
  const left = join(scratchFolder(), 'left.db');
  for (const suffix of ['', '-wal']) writeFileSync(left + suffix, readFileSync(path + suffix));
  database.close();
  return left;
}

describe.each(PURPOSES)('opened to %s, a database of another program', (purpose) => {
  it.each(['delete', 'wal'] as const)('is refused unchanged though it has no application id (%s)', (mode) => {
    const path = catsDatabase(mode);
    const before = folderOf(path);
    const fault = faultOfOpening(path, purpose);
    expect(fault.code).toBe('archive-foreign');
    expect(fault.message).toMatch(/another program.*Nothing was changed/);
    expect(folderOf(path)).toEqual(before);
  });

  it('is refused unchanged while its tables stand in its log only', () => {
    const path = leftInLog(join(scratchFolder(), 'cats.db'), (database) => {
      database.exec('CREATE TABLE cats (name TEXT)');
    });
    const before = folderOf(path);
    expect(before.size).toBe(2);
    expect(faultOfOpening(path, purpose).code).toBe('archive-foreign');
    expect(folderOf(path)).toEqual(before);
  });

  it('is refused unchanged while it has a connection open', () => {
    const path = catsDatabase('wal');
    const cats = new Database(path);
    cats.exec("INSERT INTO cats VALUES ('Mohrle')");
    const before = folderOf(path);
    expect(faultOfOpening(path, purpose).code).toBe('archive-foreign');
    expect(folderOf(path)).toEqual(before);
    cats.close();
  });
});

describe('an archive whose recorder was killed before its log was taken in for the first time', () => {
  const killed = (): string => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    keptPull(archive);
    const left = join(scratchFolder(), 'left.gaugemark');
    for (const suffix of ['', '-wal']) writeFileSync(left + suffix, readFileSync(path + suffix));
    return left;
  };

  it('is known as ours and recorded into', () => {
    const path = killed();
    // The premise of this test: nothing in the main file tells whose it is.
    expect(readFileSync(path).readUInt32BE(68)).toBe(0);
    expect(openArchive(path).info().pullCount).toBe(1);
  });

  it('is read with all that its log holds, and nothing is changed', () => {
    const path = killed();
    const before = folderOf(path);
    const archive = new Archive(path, { programVersion: '9', wallMs: () => WALL_MS, purpose: 'read' });
    expect(archive.info().pullCount).toBe(1);
    expect(archive.check({}).sound).toBe(true);
    archive.close();
    expect(folderOf(path)).toEqual(before);
  });
});

describe('an empty file', () => {
  it('is begun as an archive when it is opened to record', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    writeFileSync(path, '');
    expect(openArchive(path).info().pullCount).toBe(0);
  });

  it('is refused as it is when it is opened to read', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    writeFileSync(path, '');
    expect(faultOfOpening(path, 'read').code).toBe('archive-empty');
    expect([...folderOf(path)]).toEqual([['a.gaugemark', '']]);
  });

  it('with a log that is not empty is damage, and the log is not thrown away', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    writeFileSync(path, '');
    writeFileSync(`${path}-wal`, 'what was recorded');
    const before = folderOf(path);
    for (const purpose of PURPOSES) expect(faultOfOpening(path, purpose).code).toBe('archive-damaged');
    expect(folderOf(path)).toEqual(before);
  });
});

it('a missing file is not made by reading', () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  expect(faultOfOpening(path, 'read').code).toBe('archive-missing');
  expect(existsSync(path)).toBe(false);
});
