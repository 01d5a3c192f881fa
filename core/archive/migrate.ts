/** Brings an older archive to the present form: after a verified backup, in one transaction. */
import { existsSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { appendAudit } from './audit.ts';
import { writeBackup } from './backup.ts';
import { APPLICATION_ID } from './file-head.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { rowsNow } from './row-hash.ts';
import { type Connection, insert } from './sql.ts';

export interface MigrateOptions {
  readonly programVersion: string;
  readonly wallMs: () => number;
  /** False for a copy that is read and thrown away. Default true. */
  readonly backup?: boolean;
  /** Told how far it is, in rows, before each step and while all rows are hashed; what it throws undoes all of it. */
  readonly onBroughtUp?: (done: number, of: number) => void;
}

/** Where the backup before a migration is put: beside the archive, never over anything. */
export function backupPathBeforeMigration(path: string, version: number, wallMs: number): string {
  const day = new Date(wallMs).toISOString().replace(/[:.]/g, '-');
  return `${path}.before-form-${version + 1}-${day}`;
}

/** `migrations` can be handed in by tests. The archive is as it was when this throws. */
export function migrate(
  connection: Connection,
  path: string,
  { programVersion, wallMs, backup = true, onBroughtUp = () => undefined }: MigrateOptions,
  migrations: readonly string[] = MIGRATIONS,
): void {
  const version = z.number().parse(connection.pragma('user_version', { simple: true }));
  if (version === migrations.length) return;
  const now = wallMs();
  if (version > 0 && backup) {
    const backupPath = backupPathBeforeMigration(path, version, now);
    if (!existsSync(backupPath)) writeBackup(connection, backupPath);
  }
  // Takes effect outside of a transaction only.
  connection.pragma('foreign_keys = OFF');
  try {
    connection
      .transaction(() => {
        for (const sql of migrations.slice(version)) {
          onBroughtUp(0, 0);
          connection.exec(sql);
        }
        onBroughtUp(0, 0);
        connection.pragma(`user_version = ${migrations.length}`);
        if (version === 0) {
          connection.pragma(`application_id = ${APPLICATION_ID}`);
          insert(connection, 'fact', { name: 'archive-identity', value: randomUUID() });
          insert(connection, 'fact', { name: 'begun-by-version', value: programVersion });
          insert(connection, 'fact', { name: 'begun-wall-ms', value: String(now) });
        }
        // A table that is made anew is gone for a moment; in the end every reference must hold again.
        const broken = connection.pragma('foreign_key_check');
        if (Array.isArray(broken) && broken.length > 0)
          throw new Error(`${String(broken.length)} references hold no more after the change of form`);
        appendAudit(connection, now, {
          what: version === 0 ? 'archive begun' : 'archive brought to a newer form',
          subject: 'archive',
          subjectId: migrations.length,
          detail: {
            fromForm: version,
            toForm: migrations.length,
            programVersion,
            ...(version === 0 ? {} : { rowsBefore: rowsNow(connection, onBroughtUp) }),
          },
        });
      })
      .immediate();
  } finally {
    connection.pragma('foreign_keys = ON');
  }
}
