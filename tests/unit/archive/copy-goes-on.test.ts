/**
 * A backup that is put back, or recorded into as it is: no certificate gets a number that another one has been given, and no
 * pull is taken for another that was recorded under its number.
 */
import { copyFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { copyInSteps, keepCopy } from '../../../core/archive/backup-in-steps.ts';
import { writeBackup } from '../../../core/archive/backup.ts';
import { certificatesOnlyThere, issueCertificate } from '../../../core/archive/certificate-store.ts';
import { mergeArchive } from '../../../core/archive/merge-archive.ts';
import { restoreBackup } from '../../../core/archive/restore-backup.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const READING = { programVersion: '9.9.9', wallMs: () => WALL_MS };

const issued = (archive: Archive): string =>
  archive.sets(
    (connection, keeping) =>
      issueCertificate(connection, {
        about: { pullId: 1 },
        contentSha256: Buffer.alloc(32, 1),
        utcOffsetMinutes: 60,
        results: [],
        ...keeping,
      }).number,
  );

/** Opened for recording, given one certificate, found sound, closed. */
function numberIn(path: string): string {
  const archive = new Archive(path, READING);
  try {
    const number = issued(archive);
    expect(archive.check({})).toMatchObject({ sound: true });
    return number;
  } finally {
    archive.close();
  }
}

function archiveWithPull() {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive);
  return { folder, path, archive };
}

it('a restored backup counts on under a mark of its own, at every restore another one', () => {
  const { folder, path, archive } = archiveWithPull();
  const backup = join(folder, 'backup.gaugemark');
  const before = issued(archive);
  writeBackup(archive.connection, backup);
  const since = issued(archive);
  archive.close();

  const numbers = [before, since];
  for (let restores = 0; restores < 3; restores++) {
    restoreBackup(backup, path, READING);
    numbers.push(numberIn(path), numberIn(path));
  }
  expect(new Set(numbers).size).toBe(numbers.length);
  // Year and count go on as in the backup: only the mark differs.
  expect(numbers.map((number) => number.slice(0, 9))).toEqual(
    [1, 2, 2, 3, 2, 3, 2, 3].map((count) => `2026-000${String(count)}`),
  );
  const marks = numbers.map((number) => number.slice(10));
  expect(marks.map((mark, i) => mark === marks[i % 2 === 0 ? i + 1 : i - 1])).toEqual(marks.map(() => true));
});

it('one that is recorded into at its place gets its mark once, and from then on is an archive as any other', async () => {
  const { folder, archive } = archiveWithPull();
  const backup = join(folder, 'backup.gaugemark');
  const counts = await copyInSteps(archive.connection, backup);
  keepCopy(backup, counts);
  const [there, first, second] = [issued(archive), numberIn(backup), numberIn(backup)];
  expect(first).not.toBe(there);
  expect(second.slice(10)).toBe(first.slice(10));
});

it('one that is only read stays a backup, to the byte behind the head of the file', () => {
  const { folder, archive } = archiveWithPull();
  const backup = join(folder, 'backup.gaugemark');
  writeBackup(archive.connection, backup);
  const bytes = readFileSync(backup);
  const read = new Archive(backup, { ...READING, purpose: 'read' });
  expect(read.check({})).toMatchObject({ sound: true });
  read.close();
  // Read in place it may go over to log mode, which is said in two bytes of its head.
  const [now, then] = [readFileSync(backup), bytes].map((file) => file.fill(0, 18, 20).fill(0, 24, 100));
  expect(now?.equals(then ?? Buffer.alloc(0))).toBe(true);
  expect(numberIn(backup)).not.toBe(issued(archive));
});

it('a plain copy of a closed archive that is put back counts on under a mark of its own as well', () => {
  const { folder, path, archive } = archiveWithPull();
  archive.close();
  const copy = copyOf(path, folder);
  const since = numberIn(path);
  restoreBackup(copy, path, READING);
  expect(numberIn(path)).not.toBe(since);
});

/** Takes one into the other; what became of each pull there. */
function merged(into: Archive, from: Archive): string[] {
  const ends = (archive: Archive) => ({ connection: archive.connection });
  return [...mergeArchive({ ...ends(into), wallMs: WALL_MS }, ends(from), true)].map(({ fate }) => fate);
}

it('pulls recorded before and after a restore under one number are two, and each archive can take in the other', () => {
  const { folder, path, archive } = archiveWithPull();
  const backup = join(folder, 'backup.gaugemark');
  const both = issued(archive);
  writeBackup(archive.connection, backup);
  keptPull(archive, 5, 200);
  const left = issued(archive);
  archive.close();
  const aside = restoreBackup(backup, path, READING) ?? 'none';
  const restored = openArchive(path);
  keptPull(restored, 5, 300);
  keptPull(restored, 5, 400);
  const before = openArchive(aside);

  expect(merged(restored, before)).toEqual(['here-already', 'taken']);
  // Certificates stay where they were issued, which a merge tells of; one that both have is none of them.
  expect(left).not.toBe(both);
  expect(certificatesOnlyThere(before.connection, restored.connection)).toEqual({
    count: 1,
    numbers: [left],
  });
  expect(merged(before, restored)).toEqual(['here-already', 'taken', 'taken', 'here-already']);
  expect(merged(restored, before)).toEqual(['here-already', 'here-already', 'here-already', 'here-already']);
  for (const one of [restored, before]) expect(one.check({})).toMatchObject({ sound: true });
  expect([restored, before].map((one) => one.info().pullCount)).toEqual([4, 4]);
});

it('an identity that was changed or put in is found by the check, and one that can not be read is damage', () => {
  const { folder, path, archive } = archiveWithPull();
  archive.close();
  restoreBackup(copyOf(path, folder), path, READING);
  numberIn(path);
  const put = (name: string, value: string): void => {
    const raw = new Database(path);
    raw.prepare('INSERT INTO fact VALUES (?, ?)').run(name, value);
    raw.close();
  };
  put('own-identity-2', '0a0a0a0a-0a0a-0a0a-0a0a-0a0a0a0a0a0a 1');
  const changed = openArchive(path);
  expect(changed.check({}).lines.find(({ ok }) => !ok)?.words).toContain(
    'the identities under which it recorded',
  );
  changed.close();
  put('own-identity-3', 'x'.repeat(10_000));
  const unreadable = openArchive(path);
  expect(() => issued(unreadable)).toThrow(/does not say under which identity it records/);
  expect(unreadable.check({})).toMatchObject({ sound: false });
});

const copyOf = (path: string, folder: string): string => {
  const copy = join(folder, 'copy.gaugemark');
  copyFileSync(path, copy);
  return copy;
};
