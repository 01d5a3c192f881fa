/** Archives whose bytes say what no program wrote: what fuzzing found, kept as it would come in. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { ArchiveFault } from '../../../core/archive/archive-fault.ts';
import { keptPull, openArchive, scratchFolder } from './made-archive.ts';

/** Offset of the schema format number; the database knows 1 to 4 (SQLite database file format, section 1.3.7). */
const SCHEMA_FORMAT_AT = 44;
const OPTIONS = { programVersion: '9.9.9', wallMs: () => 0 };

/** A closed archive with one pull, changed by `work` with everything taken away that would refuse it. */
function forged(work: (connection: Database.Database) => void): string {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive);
  archive.close();
  const connection = new Database(path);
  connection.pragma('foreign_keys = OFF');
  connection.pragma('ignore_check_constraints = ON');
  work(connection);
  connection.close();
  return path;
}

const withoutTriggers = (connection: Database.Database, table: string): void => {
  for (const name of connection
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?")
    .pluck()
    .all(table))
    connection.exec(`DROP TRIGGER ${String(name)}`);
};

/** A check of a table that lets through what it refused. */
function loosened(connection: Database.Database, table: string, check: string, looser: string): void {
  connection.unsafeMode();
  connection.pragma('writable_schema = ON');
  connection
    .prepare('UPDATE sqlite_schema SET sql = replace(sql, ?, ?) WHERE name = ?')
    .run(check, looser, table);
  connection.pragma('writable_schema = RESET');
}

const faultOf = (work: () => unknown): string => {
  try {
    work();
    return 'none';
  } catch (error) {
    return error instanceof ArchiveFault ? error.code : String(error);
  }
};

describe('a forged or damaged archive is told as such, never as a fault of the program', () => {
  it('with a schema format that no database has', () => {
    const path = forged(() => undefined);
    const bytes = readFileSync(path);
    bytes.writeUInt32BE(9, SCHEMA_FORMAT_AT);
    writeFileSync(path, bytes);
    for (const purpose of ['record', 'read'] as const)
      expect(faultOf(() => new Archive(path, { ...OPTIONS, purpose }))).toBe('archive-damaged');
  });

  it.each([
    ['a function that there is not', 'length(', 'lenxth('],
    ['a function with other arguments', 'length(', 'substr('],
    ['a setting of the text index that says nothing', "prefix='", "prefix='x"],
    ['another kind of text index', 'USING fts5(', 'USING fts5vocab('],
  ])('with a schema that names %s', (_what, word, by) => {
    const path = forged((connection) => {
      connection.unsafeMode();
      connection.pragma('writable_schema = ON');
      const { changes } = connection
        .prepare('UPDATE sqlite_schema SET sql = replace(sql, ?, ?) WHERE instr(sql, ?) > 0')
        .run(word, by, word);
      expect(changes).toBeGreaterThan(0);
    });
    for (const purpose of ['record', 'read'] as const)
      expect(faultOf(() => new Archive(path, { ...OPTIONS, purpose }))).toBe('archive-damaged');
  });

  it('with a form that its tables are not of', () => {
    const older = forged((connection) => connection.pragma('user_version = 3'));
    expect(faultOf(() => new Archive(older, OPTIONS))).toBe('archive-damaged');
    const withoutColumn = forged((connection) =>
      connection.exec('ALTER TABLE specimen RENAME COLUMN name TO nome'),
    );
    expect(faultOf(() => openArchive(withoutColumn).listPulls({ limit: 10 }))).toBe('archive-damaged');
  });

  it('with a text index of a version that no database has', () => {
    // https://www.sqlite.org/fts5.html: the version stands in the table of the index's settings; 4 or 5.
    const path = forged((connection) => {
      connection.unsafeMode();
      connection.exec("UPDATE search_text_config SET v = 0 WHERE k = 'version'");
    });
    for (const purpose of ['record', 'read'] as const)
      expect(faultOf(() => new Archive(path, { ...OPTIONS, purpose }))).toBe('archive-damaged');
  });

  it.each([90_000_000_000_000, -1_000])(
    'with %d readings told of in a block: no room is made for them',
    (count) => {
      const path = forged((connection) => {
        withoutTriggers(connection, 'reading_block');
        loosened(connection, 'reading_block', 'reading_count > 0', 'reading_count <> 0');
        connection.exec(`UPDATE reading_block SET reading_count = ${count} WHERE pull_id = 1`);
      });
      const archive = openArchive(path);
      expect(faultOf(() => archive.curve(1))).toBe('archive-damaged');
      expect(archive.check({}).sound).toBe(false);
    },
  );

  it('with an offset from UTC that no place has', () => {
    const path = forged((connection) => {
      withoutTriggers(connection, 'pull');
      loosened(connection, 'pull', 'AND 1080', 'AND 9999999');
      connection.exec('UPDATE pull SET started_utc_offset_minutes = 5000000');
    });
    const archive = openArchive(path);
    expect(faultOf(() => archive.getPull(1))).toBe('archive-damaged');
    expect(archive.check({}).sound).toBe(false);
  });
});
