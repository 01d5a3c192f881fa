/** That the fuzzing of logs reaches the database: a changed log whose sums are right again is one that SQLite believes. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { withItsSums } from '../../bench/fuzz/log-changes.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugemark-log-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** A database with its first word in the file and its second only in the log. */
function fileAndLog(): { readonly bytes: Buffer; readonly log: Buffer } {
  const path = join(folder, 'made.db');
  const connection = new Database(path);
  connection.pragma('journal_mode = WAL');
  connection.exec("CREATE TABLE word (text TEXT); INSERT INTO word VALUES ('in the file')");
  connection.pragma('wal_checkpoint(TRUNCATE)');
  connection.exec("INSERT INTO word VALUES ('in the log')");
  const made = { bytes: readFileSync(path), log: readFileSync(`${path}-wal`) };
  connection.close();
  return made;
}

function wordsWith(bytes: Buffer, log: Buffer): unknown[] {
  const path = join(folder, 'read.db');
  rmSync(`${path}-shm`, { force: true });
  writeFileSync(path, bytes);
  writeFileSync(`${path}-wal`, log);
  const connection = new Database(path);
  try {
    return connection.prepare('SELECT text FROM word').pluck().all();
  } finally {
    connection.close();
  }
}

it('leaves a log that SQLite wrote as it is', () => {
  const { log } = fileAndLog();
  expect(withItsSums(Buffer.from(log)).equals(log)).toBe(true);
});

it('makes SQLite believe a changed page, which it ignores while its sum is wrong', () => {
  const { bytes, log } = fileAndLog();
  log.write('IN THE LOG', log.lastIndexOf('in the log'), 'latin1');
  expect(wordsWith(bytes, log)).toEqual(['in the file']);
  expect(wordsWith(bytes, withItsSums(log))).toEqual(['in the file', 'IN THE LOG']);
});
