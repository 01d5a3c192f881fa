/**
 * A backup that is recorded into goes on beside the archive that it was copied from, which has recorded pulls and issued
 * certificates since that the backup does not know, may be lost, and may still be in use elsewhere. So a backup says that it
 * is one, and gets an identity of its own when it is first opened for recording: its certificates end in another mark, and
 * its pulls are never taken for those that the original recorded under the same numbers.
 */
import { randomUUID } from 'node:crypto';
import Database from 'better-sqlite3';
import { ArchiveFault } from './archive-fault.ts';
import { appendAudit } from './audit.ts';
import { hasLog } from './copy-for-reading.ts';
import { hasTable, sayClosed } from './half-copy.ts';
import {
  OWN_IDENTITIES_MAX,
  OWN_IDENTITY_FACT,
  type OwnIdentity,
  identityText,
  ownIdentities,
} from './own-identities.ts';
import { type Connection, countOf, insert } from './sql.ts';

/** Belongs to no form: it says nothing of what is kept. */
export const COPY_TABLE = 'copied_from_archive';

/**
 * Opens a copy that nothing else has open, as one file without a log beside it; it says that it is a copy and not open. What
 * the database throws is thrown on.
 */
export function withCopy(path: string, look: (copy: Connection) => void = () => undefined): void {
  const copy = new Database(path, { fileMustExist: true, timeout: 0 });
  try {
    // Exclusive first, see open-archive.ts: a plain copy of an archive is in log mode.
    copy.pragma('locking_mode = EXCLUSIVE');
    copy.pragma('journal_mode = DELETE');
    sayClosed(copy);
    copy.exec(`CREATE TABLE IF NOT EXISTS ${COPY_TABLE} (unused INTEGER) STRICT`);
    look(copy);
  } finally {
    copy.close();
  }
  if (hasLog(path))
    throw new ArchiveFault(
      'archive-unreadable',
      `The copy ${path} could not be made one file: a log stays beside it. Nothing was changed; free some space on its disk and try again.`,
    );
}

/** Of an archive of the present form that is opened for recording; nothing happens to one that is no copy. */
export function goOnByItself(
  connection: Connection,
  { wallMs, programVersion }: { readonly wallMs: number; readonly programVersion: string },
): void {
  if (!hasTable(connection, COPY_TABLE)) return;
  connection
    .transaction(() => {
      const before = ownIdentities(connection);
      if (before.length > OWN_IDENTITIES_MAX)
        throw new ArchiveFault(
          'archive-unsafe',
          `This archive was put back from backups ${String(OWN_IDENTITIES_MAX)} times, which is all that it can tell apart; begin a new archive and take this one into it.`,
        );
      const its: OwnIdentity = {
        identity: randomUUID(),
        afterPull: countOf(connection, 'SELECT coalesce(max(pull_id), 0) AS n FROM pull'),
      };
      insert(connection, 'fact', {
        name: `${OWN_IDENTITY_FACT}${String(before.length)}`,
        value: identityText(its),
      });
      appendAudit(connection, wallMs, {
        what: 'backup went on as an archive',
        subject: 'archive',
        subjectId: before.length,
        // Which the check compares.
        detail: { ownIdentity: identityText(its), programVersion },
      });
      connection.exec(`DROP TABLE ${COPY_TABLE}`);
    })
    .immediate();
}
