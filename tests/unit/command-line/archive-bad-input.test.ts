/** Archives and files that can't be used as asked: one sentence each with the way out, and nothing changed. */
import Database from 'better-sqlite3';
import { copyFileSync, mkdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { SCHEMA_VERSION } from '../../../core/archive/migrations/index.ts';
import { keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { folderOfFiles, ran } from './in-process.ts';

function archiveAt(path: string): string {
  const archive = openArchive(path);
  keptPull(archive);
  archive.close();
  return path;
}

/** What is refused, in the words that it is refused with. */
async function refused(...args: string[]): Promise<string> {
  const { code, err } = await ran('archive', ...args);
  expect(code, err).not.toBe(0);
  // What the system said stands apart, in a line of its own.
  const sentences = err
    .trim()
    .split('\n')
    .filter((line) => !line.startsWith('  detail: '));
  expect(sentences, err).toHaveLength(1);
  return sentences.join('');
}

/** Every verb by which another archive comes in. */
const WAYS_IN = (own: string, other: string): readonly string[][] => [
  ['merge', other, '--archive', own],
  ['restore', other, '--archive', own],
  ['search', 'x', '--archive', own, '--with', other],
];

describe('another archive', () => {
  it('of a newer version is refused with both forms and is left as it was', async () => {
    const own = archiveAt(join(scratchFolder(), 'own.gaugemark'));
    const newer = join(dirname(own), 'newer.gaugemark');
    copyFileSync(own, newer);
    const database = new Database(newer);
    database.pragma(`user_version = ${String(SCHEMA_VERSION + 1)}`);
    database.close();
    const before = readFileSync(newer);
    for (const way of WAYS_IN(own, newer))
      expect(await refused(...way), way[0]).toMatch(
        new RegExp(
          `form ${String(SCHEMA_VERSION + 1)} and this program knows forms up to ${String(SCHEMA_VERSION)}.*use that version`,
        ),
      );
    expect(readFileSync(newer).equals(before)).toBe(true);
  });

  it('that a second program has open is refused, and what is here stays', async () => {
    const own = archiveAt(join(scratchFolder(), 'own.gaugemark'));
    const other = join(dirname(own), 'other.gaugemark');
    copyFileSync(own, other);
    const holder = new Database(other);
    onTestFinished(() => void holder.close());
    holder.pragma('locking_mode = EXCLUSIVE');
    holder.exec('BEGIN EXCLUSIVE');
    for (const way of WAYS_IN(own, other))
      expect(await refused(...way), way[0]).toMatch(/Another running program.*close it there/);
  });

  it('that is missing, a folder, or no archive at all is told apart', async () => {
    const own = archiveAt(join(scratchFolder(), 'own.gaugemark'));
    const folder = join(dirname(own), 'folder');
    mkdirSync(folder);
    const text = join(dirname(own), 'letter.gaugemark');
    writeFileSync(text, 'Dear Sir or Madam, '.repeat(40));
    expect(await refused('merge', join(folder, 'none.gaugemark'), '--archive', own)).toMatch(/no archive/i);
    expect(await refused('merge', folder, '--archive', own)).toMatch(/is no file/);
    expect(await refused('restore', text, '--archive', own)).toMatch(/no database at all.*choose another/);
    expect(await refused('merge', own, '--archive', own)).toMatch(/this very archive/);
  });
});

describe('what is written', () => {
  it('into a folder that went away is refused before anything, and says what to do', async () => {
    const own = archiveAt(join(scratchFolder(), 'own.gaugemark'));
    const gone = join(dirname(own), 'stick', 'file');
    for (const args of [
      ['export', '1', '--out', `${gone}.csv`],
      ['backup', '--out', `${gone}.gaugemark`],
      ['backup', '--into', join(dirname(own), 'stick')],
      ['search', '--csv', `${gone}.csv`],
      ['search', '--xlsx', `${gone}.xlsx`],
      ['split', '--by-year', '--into', join(dirname(own), 'stick'), '--yes'],
    ])
      expect(await refused(...args, '--archive', own), args.join(' ')).toMatch(
        /(does not exist|There is no folder).*(make it first|choose another)/,
      );
  });
});

describe('a file of readings', () => {
  const specimen = JSON.stringify({ id: 'B-1', geometry: { kind: 'round', diameter: '10 mm' } });
  it('of two gigabytes is refused by its size alone', async () => {
    const file = folderOfFiles();
    const path = file('long.csv', 'time_s,force_kN\n0,1\n');
    // A sparse file: it takes no room on the disk, and reading it would take minutes.
    truncateSync(path, 2 * 1_073_741_824);
    const words = await refused(
      'import',
      path,
      '--archive',
      join(scratchFolder(), 'a.gaugemark'),
      '--specimen',
      file('s.json', specimen),
    );
    expect(words).toMatch(/2048 MiB, and at most 256 MiB.*split it or leave columns out/);
  });
});
