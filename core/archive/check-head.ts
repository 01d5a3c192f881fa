/** Whether a file is an archive of this program and of a form that it knows, found out without changing anything. */
import Database from 'better-sqlite3';
import { z } from 'zod';
import { ArchiveFault, damagedFault } from './archive-fault.ts';
import { copyForReading, hasLog } from './copy-for-reading.ts';
import { APPLICATION_ID, type DatabaseHead, readFileHead } from './file-head.ts';
import { SCHEMA_VERSION } from './migrations/index.ts';

/** `begun`: a database without any table yet, as an archive is that was killed within its first moments. */
export type HeadFinding = { readonly kind: 'missing' | 'empty' | 'begun' } | DatabaseHead;

/** Throws an ArchiveFault for what is no archive, another program's, or of a newer form. */
export function checkHead(full: string): HeadFinding {
  const head = readFileHead(full);
  switch (head.kind) {
    case 'missing':
      return head;
    case 'not-a-database':
      throw new ArchiveFault(
        'archive-not-a-database',
        `The file ${full} is no archive (it is no database at all). Nothing was changed; choose another file.`,
      );
    case 'empty':
      // The library would throw such a log away.
      if (hasLog(full)) throw damagedFault(full, 'the main file is empty, its log is not');
      return head;
    case 'database':
      return checkDatabase(full, head);
  }
}

function checkDatabase(full: string, inFile: DatabaseHead): HeadFinding {
  // The main file of a new archive stays empty until its log is taken in for the first time.
  const head = isBlank(inFile) && hasLog(full) ? headWithLog(full) : inFile;
  if (isBlank(head)) return { kind: 'begun' };
  if (head.applicationId !== APPLICATION_ID)
    throw new ArchiveFault(
      'archive-foreign',
      `The file ${full} is a database of another program. Nothing was changed; choose another file.`,
    );
  refuseNewer(full, head.userVersion);
  return head;
}

const isBlank = ({ applicationId, userVersion, hasTables }: DatabaseHead): boolean =>
  applicationId === 0 && userVersion === 0 && !hasTables;

function headWithLog(full: string): DatabaseHead {
  const copy = copyForReading(full);
  try {
    const database = new Database(copy.path);
    try {
      const number = (name: string): number => z.number().parse(database.pragma(name, { simple: true }));
      const tables = z.number().parse(database.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
      return {
        kind: 'database',
        userVersion: number('user_version'),
        applicationId: number('application_id'),
        hasTables: tables > 0,
        isInLogMode: true,
        isWhole: true,
      };
    } finally {
      database.close();
    }
  } finally {
    copy.discard();
  }
}

export function refuseNewer(full: string, version: number): void {
  if (version > SCHEMA_VERSION)
    throw new ArchiveFault(
      'archive-newer',
      `The archive ${full} has form ${version} and this program knows forms up to ${SCHEMA_VERSION}: it was written by a newer version. Nothing was changed; use that version.`,
    );
}
