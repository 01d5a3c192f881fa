/** The queries that DEVELOPERS.md shows, exactly as they stand there, by SQLite without any part of this program. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, it } from 'vitest';
import { keptPull, openArchive, scratchFolder } from './made-archive.ts';

const SECTION = /## The archive, read with plain SQLite\n([\s\S]*?)\n## /;

function queries(): string[] {
  const text = readFileSync(new URL('../../../DEVELOPERS.md', import.meta.url), 'utf8');
  const section = SECTION.exec(text)?.[1] ?? '';
  const blocks = [...section.matchAll(/```sql\n([\s\S]*?)```/g)].map(([, block = '']) => block);
  return blocks
    .join('\n')
    .split(';')
    .map((query) => query.trim())
    .filter((query) => query !== '');
}

/** An archive in which every query finds something. */
function archiveToRead(): { readonly path: string; readonly pullId: number } {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = keptPull(archive);
  archive.noteFracture({ pullId, note: { place: 'base-metal' } });
  archive.close();
  return { path, pullId };
}

it('each gives what was kept, through another binding', () => {
  const { path, pullId } = archiveToRead();
  const database = new DatabaseSync(path, { readOnly: true });
  const answers = queries().map((query) => database.prepare(query).all());
  database.close();
  expect(answers.length).toBeGreaterThanOrEqual(4);
  for (const [i, rows] of answers.entries()) expect(rows.length, queries()[i]).toBeGreaterThan(0);
  expect(answers[0]?.[0]).toMatchObject({ pull_id: pullId });
});

const HAS_SHELL = spawnSync('sqlite3', ['-version']).error === undefined;
if (!HAS_SHELL)
  process.stderr.write(
    'Skipped: there is no sqlite3 program here (Debian package sqlite3), so its shell was not asked.\n',
  );

it.skipIf(!HAS_SHELL)('each gives what was kept, in the sqlite3 shell', () => {
  const { path, pullId } = archiveToRead();
  const shell = spawnSync('sqlite3', ['-readonly', path], { input: `${queries().join(';\n')};\n` });
  expect(shell.stderr.toString()).toBe('');
  expect(shell.stdout.toString().split('\n')[0]).toContain(`${String(pullId)}|`);
});
