/** Certificates that are about a pull without a set, and the change of form that made room for them. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { issueCertificate, lastIssued, lastCertificateOf } from '../../../core/archive/certificate-store.ts';
import { migrate } from '../../../core/archive/migrate.ts';
import { certificatesOfPulls } from '../../../core/archive/migrations/0010-certificates-of-pulls.ts';
import { MIGRATIONS } from '../../../core/archive/migrations/index.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const OPTIONS = { programVersion: '9.9.9', wallMs: () => WALL_MS };

describe('the form in which a certificate may be of a pull', () => {
  const BEFORE = MIGRATIONS.slice(0, MIGRATIONS.indexOf(certificatesOfPulls));
  const older = () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const connection = new Database(path);
    connection.pragma('foreign_keys = ON');
    migrate(connection, path, OPTIONS, BEFORE);
    connection.exec(`
      INSERT INTO specimen_set VALUES (7, 1);
      INSERT INTO certificate VALUES (3, '2026-0003-abcd', 7, NULL, 5, 60, zeroblob(32), '0.1.0');
      INSERT INTO signature VALUES (1, 3, zeroblob(32), 'A. Person', 'tested by', NULL, 0, 6, 60);`);
    return { path, connection };
  };

  it('keeps every certificate with its number, and the signatures under it', () => {
    const { path, connection } = older();
    migrate(connection, path, OPTIONS);
    expect(
      connection.prepare('SELECT certificate_id, number, set_id, pull_id FROM certificate').all(),
    ).toEqual([{ certificate_id: 3, number: '2026-0003-abcd', set_id: 7, pull_id: null }]);
    expect(
      connection
        .prepare('SELECT number FROM signature JOIN certificate USING (certificate_id)')
        .pluck()
        .all(),
    ).toEqual(['2026-0003-abcd']);
    expect(connection.pragma('foreign_keys', { simple: true })).toBe(1);
    expect(connection.pragma('integrity_check', { simple: true })).toBe('ok');
  });

  it('still refuses to change or delete one, or a signature under none', () => {
    const { path, connection } = older();
    migrate(connection, path, OPTIONS);
    expect(() => connection.exec("UPDATE certificate SET number = 'x'")).toThrow(/never changed/);
    expect(() => connection.exec('DELETE FROM certificate')).toThrow(/never deleted/);
    expect(() =>
      connection.exec("INSERT INTO signature VALUES (2, 99, zeroblob(32), 'B', 'tested by', NULL, 0, 6, 60)"),
    ).toThrow(/FOREIGN KEY/);
    expect(() =>
      connection.exec(
        "INSERT INTO certificate VALUES (4, 'n', 7, NULL, 1, 5, 60, zeroblob(32), '0.1.0', NULL)",
      ),
    ).toThrow(/CHECK/);
  });

  it('is refused, and the archive as it was, where a reference would hold no more', () => {
    const { path, connection } = older();
    expect(() => migrate(connection, path, OPTIONS, [...BEFORE, 'DROP TABLE certificate;'])).toThrow(
      /1 references hold no more/,
    );
    expect(connection.prepare('SELECT count(*) FROM certificate').pluck().get()).toBe(1);
    expect(connection.pragma('foreign_keys', { simple: true })).toBe(1);
  });
});

describe('a certificate of a pull', () => {
  it('has a number of its own, found again by the pull and by no set', () => {
    const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
    const pullId = keptPull(archive);
    const contentSha256 = Buffer.alloc(32, 1);
    const { number } = archive.sets((connection, keeping) =>
      issueCertificate(connection, {
        about: { pullId },
        contentSha256,
        utcOffsetMinutes: 60,
        results: [],
        ...keeping,
      }),
    );
    expect(archive.sets((c) => lastIssued(c, { pullId }, contentSha256))).toMatchObject({
      number,
      saysTheSame: true,
    });
    expect(archive.sets((c) => lastIssued(c, { pullId }, Buffer.alloc(32, 2)))?.saysTheSame).toBe(false);
    expect(archive.sets((c) => lastIssued(c, { setId: 1 }, contentSha256))).toBeNull();
    expect(archive.sets((c) => lastCertificateOf(c, 1))).toBeNull();
    expect(archive.check({}).lines.find((line) => line.name === 'audit chain')).toMatchObject({ ok: true });
  });
});
