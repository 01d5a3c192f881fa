/** Migrations: after a verified backup, in one transaction, or not at all. */
import { copyFileSync, existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { appendAudit, checkChain } from '../../../core/archive/audit.ts';
import { readFileHead } from '../../../core/archive/file-head.ts';
import { importPull } from '../../../core/archive/import-store.ts';
import { backupPathBeforeMigration, migrate } from '../../../core/archive/migrate.ts';
import { MIGRATIONS, SCHEMA_VERSION } from '../../../core/archive/migrations/index.ts';
import { settlePlan } from '../../../core/exchange/import/import-bytes.ts';
import { keptPull, newPull, openArchive, scratchFolder, WALL_MS } from './made-archive.ts';

const OPTIONS = { programVersion: '9.9.9', wallMs: () => WALL_MS };
const MORE = [
  ...MIGRATIONS,
  'ALTER TABLE specimen ADD COLUMN colour TEXT;',
  'CREATE TABLE shelf (n INTEGER) STRICT;',
];

describe('an archive of an earlier form', () => {
  it('is brought to the present form with its rows, after a backup that holds them too', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = keptPull(archive);
    const before = archive.getPull(pullId);
    migrate(archive.connection, path, OPTIONS, MORE);
    expect(archive.connection.pragma('user_version', { simple: true })).toBe(SCHEMA_VERSION + 2);
    expect(archive.getPull(pullId)).toEqual(before);
    expect(checkChain(archive.connection).brokenAt).toBeNull();
    const backup = new Database(backupPathBeforeMigration(path, SCHEMA_VERSION, WALL_MS), { readonly: true });
    expect(backup.pragma('user_version', { simple: true })).toBe(SCHEMA_VERSION);
    expect(backup.prepare('SELECT count(*) FROM pull').pluck().get()).toBe(1);
    backup.close();
  });

  it('is exactly as it was when a migration fails half-way (D13)', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = keptPull(archive);
    const schema = archive.connection.prepare('SELECT sql FROM sqlite_schema').all();
    expect(() =>
      migrate(archive.connection, path, OPTIONS, [...MORE, 'CREATE TABLE specimen (n)']),
    ).toThrow();
    expect(archive.connection.pragma('user_version', { simple: true })).toBe(SCHEMA_VERSION);
    expect(archive.connection.prepare('SELECT sql FROM sqlite_schema').all()).toEqual(schema);
    expect(archive.check({ pullId }).sound).toBe(true);
  });

  it('is not migrated when the backup can not be written', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const elsewhere = join(dirname(path), 'missing', 'a.gaugemark');
    expect(() => migrate(archive.connection, elsewhere, OPTIONS, MORE)).toThrow();
    expect(archive.connection.pragma('user_version', { simple: true })).toBe(SCHEMA_VERSION);
  });
});

describe('an archive that the first version left (fixtures/archives/form-1.gaugemark)', () => {
  const fixture = new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url);
  const copied = (): string => {
    const path = join(scratchFolder(), 'old.gaugemark');
    copyFileSync(fixture, path);
    return path;
  };

  it('is of that form indeed', () => {
    expect(readFileHead(fixture.pathname)).toMatchObject({ kind: 'database', userVersion: 1 });
  });

  it('is opened with its pull as it was, whose offset from UTC stays unknown; a new pull keeps its own', () => {
    const path = copied();
    const archive = openArchive(path);
    const kept = archive.getPull(1);
    expect([kept.startedWallMs, kept.startedUtcOffsetMinutes, kept.readingCount]).toEqual([
      WALL_MS,
      null,
      20,
    ]);
    expect(archive.check({}).sound).toBe(true);
    const pullId = archive.beginPull(newPull(kept.specimenId, { startedUtcOffsetMinutes: -210 }));
    expect(archive.getPull(pullId).startedUtcOffsetMinutes).toBe(-210);
    expect(existsSync(backupPathBeforeMigration(path, 1, WALL_MS))).toBe(true);
  });

  it('keeps a gap of form 11 as it was, of the only instrument that there was then', () => {
    const path = copied();
    const old = new Database(path);
    migrate(old, path, OPTIONS, MIGRATIONS.slice(0, 11));
    old.exec(`INSERT INTO gap (gap_id, pull_id, cause, before_seq, from_us, words)
      VALUES (1, 1, 'signal-lost', 7, 1500, 'the adapter was unplugged')`);
    appendAudit(old, WALL_MS, { what: 'gap noted', subject: 'gap', subjectId: 1, detail: {} });
    old.close();
    const archive = openArchive(path);
    const { gaps, second } = archive.getPull(1);
    expect(gaps).toEqual([
      {
        gapId: 1,
        cause: 'signal-lost',
        beforeSeq: 7,
        fromElapsedUs: 1500,
        toElapsedUs: null,
        words: 'the adapter was unplugged',
      },
    ]);
    expect(second).toBeNull();
    expect(archive.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
  });

  it('has no stated days from before form 14, and takes one of an imported pull afterwards', () => {
    const path = copied();
    const old = new Database(path);
    migrate(old, path, OPTIONS, MIGRATIONS.slice(0, 13));
    old.close();
    const archive = openArchive(path);
    expect(archive.getPull(1)).toMatchObject({ pulledOn: null, statedDays: [] });
    const bytes = Buffer.from('time_s,force_kN\n0,0\n1,1\n2,2\n');
    const plan = settlePlan(bytes, true);
    if (!plan.ok) throw new Error(plan.fault.sentence);
    const { startedWallMs, startedUtcOffsetMinutes, startedMonotonicUs, boot, operator } = newPull(1);
    const given = {
      startedWallMs,
      startedUtcOffsetMinutes,
      startedMonotonicUs,
      boot,
      operator,
      specimenId: 1,
    };
    const { pullId } = archive.sets((connection, { programVersion }) =>
      importPull(
        { connection, programVersion },
        { ...given, file: 'x.csv', bytes, plan: plan.plan, pulledOn: '2019-05-14' },
      ),
    );
    expect(archive.getPull(pullId).pulledOn).toBe('2019-05-14');
    expect(archive.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
  });

  it('is read without being changed, and nothing is put beside it', () => {
    const path = copied();
    const archive = new Archive(path, { ...OPTIONS, purpose: 'read' });
    expect(archive.getPull(1).startedUtcOffsetMinutes).toBeNull();
    expect(archive.check({}).sound).toBe(true);
    archive.close();
    expect(readFileSync(path).equals(readFileSync(fixture))).toBe(true);
    expect(readdirSync(dirname(path))).toEqual(['old.gaugemark']);
  });
});

it('does nothing to an archive of the present form, and leaves no backup behind', () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  openArchive(path).close();
  openArchive(path);
  expect(existsSync(path)).toBe(true);
  expect(readdirSync(dirname(path)).filter((name) => name.includes('before-form'))).toEqual([]);
});
