/**
 * A copy of the archive by the database's own means (a copy of the main file alone would lack what is in the
 * log, and still pass a check): to a temporary name, checked, synced, renamed. Never over an existing file. In one go:
 * nothing else is done with the archive meanwhile (`backup-in-steps.ts` is for an archive that is recorded into).
 */
import { existsSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { ArchiveFault, ArchiveRefusal } from './archive-fault.ts';
import { withCopy } from './copy-goes-on.ts';
import { letWrite } from './let-write.ts';
import { renameWhenFree } from './rename-when-free.ts';
import type { Connection } from './sql.ts';
import { TABLES_OF_NO_FORM } from './tables-of-no-form.ts';
import { discardPart } from './discard-part.ts';
import { beginPart } from './left-parts.ts';
import { syncFile, syncFolder } from './sync-folder.ts';
import { targetFaultOf } from './target-fault.ts';

export interface WrittenBackup {
  readonly path: string;
  readonly bytes: number;
}

/** Throws an ArchiveRefusal where `to` exists, an ArchiveFault where the copy can't be written or isn't sound. */
export function writeBackup(connection: Connection, to: string): WrittenBackup {
  if (existsSync(to)) throw fileExists(to);
  const temporary = beginPart(to);
  let isBegun = false;
  try {
    rmSync(temporary, { force: true });
    letWrite(connection, () => connection.prepare('VACUUM INTO ?').run(temporary));
    isBegun = true;
    // The library says it of a missing folder in words of its own.
    statSync(temporary);
    // The original is open for recording, its copy is not, and says that it is one.
    withCopy(temporary);
    verifyCopy(connection, temporary);
    syncFile(temporary);
    renameWhenFree(temporary, to);
    syncFolder(dirname(to));
    return { path: to, bytes: statSync(to).size };
  } catch (error) {
    discardPart(temporary);
    throw targetFaultOf(error, to, 'backup', isBegun);
  }
}

function verifyCopy(original: Connection, path: string): void {
  const copy = new Database(path, { readonly: true, fileMustExist: true });
  try {
    const verdict = z.string().parse(copy.pragma('integrity_check(1)', { simple: true }));
    const same = rowCounts(copy) === rowCounts(original);
    if (verdict !== 'ok' || !same) throw backupDisagrees(verdict === 'ok' ? 'rows are missing' : verdict);
  } finally {
    copy.close();
  }
}

/** Whether every page of a copy that was made before is as the database writes it; reads the whole file, changes nothing. */
export function pagesAreSound(path: string): boolean {
  try {
    const copy = new Database(path, { readonly: true, fileMustExist: true });
    try {
      return copy.pragma('quick_check(1)', { simple: true }) === 'ok';
    } finally {
      copy.close();
    }
  } catch {
    return false;
  }
}

export const fileExists = (to: string): ArchiveRefusal =>
  new ArchiveRefusal(
    'file-exists',
    `The file ${to} exists already and is not written over; choose another name.`,
    'to',
  );

export const backupDisagrees = (detail: string): ArchiveFault =>
  new ArchiveFault(
    'archive-damaged',
    'The backup does not agree with the archive, so it was not kept; check the archive with gaugemark archive check.',
    detail,
  );

/** How many rows each table has, as one text to be compared. */
function rowCounts(connection: Connection): string {
  const names = z
    .array(z.object({ name: z.string().regex(/^[a-z_]+$/) }))
    .parse(
      connection
        .prepare(
          "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name",
        )
        .all(),
    );
  return names
    .filter(({ name }) => !TABLES_OF_NO_FORM.includes(name))
    .map(({ name }) => `${name} ${String(connection.prepare(`SELECT count(*) FROM ${name}`).pluck().get())}`)
    .join('\n');
}
