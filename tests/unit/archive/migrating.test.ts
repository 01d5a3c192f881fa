/** Migrations: after a verified backup, in one transaction, or not at all. */
import { existsSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { checkChain } from '../../../core/archive/audit.ts';
import { backupPathBeforeMigration, migrate } from '../../../core/archive/migrate.ts';
import { MIGRATIONS, SCHEMA_VERSION } from '../../../core/archive/migrations/index.ts';
import { keptPull, openArchive, scratchFolder, WALL_MS } from './made-archive.ts';

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

  it('is exactly as it was when a migration fails half-way', () => {
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

it('does nothing to an archive of the present form, and leaves no backup behind', () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  openArchive(path).close();
  openArchive(path);
  expect(existsSync(path)).toBe(true);
  expect(readdirSync(dirname(path)).filter((name) => name.includes('before-form'))).toEqual([]);
});
