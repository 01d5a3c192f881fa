/**
 * A backup while a record is made: a few pages at a time between the commits, by the database's own means. Checking the
 * copy takes longer than a commit may wait, so that is done wherever the caller has time for it.
 */
import { statSync, existsSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { ArchiveRefusal } from './archive-fault.ts';
import { type WrittenBackup, backupDisagrees, fileExists } from './backup.ts';
import { syncFile, syncFolder } from './sync-folder.ts';
import { OPEN_TABLE, sayClosed } from './half-copy.ts';
import { renameWhenFree } from './rename-when-free.ts';
import { type Connection, allRows, countOf } from './sql.ts';
import { discardPart } from './discard-part.ts';
import { targetFaultOf } from './target-fault.ts';

/** Copied in a millisecond or so. */
const PAGES_PER_STEP = 64;

/** The number of the newest row of a table, or how many rows it has where they have no numbers. */
export const tableEnd = z.strictObject({ table: z.string(), end: z.number() });
export type TableEnd = z.infer<typeof tableEnd>;

/** Beside the place where it is to stand, so that it can be renamed. */
export const unfinishedCopy = (to: string): string => `${to}.part-${process.pid}`;

/**
 * Copies what stands at the moment of the last step; what is kept meanwhile comes with it. Gives the ends of the tables at
 * that moment. Rejects with an ArchiveRefusal where `to` exists, with an ArchiveFault where the copy can't be written, and
 * with what `onStep` throws, by which it is stopped; nothing of the copy is then left.
 */
export async function copyInSteps(
  connection: Connection,
  to: string,
  onStep: (pages: number, ofPages: number) => void = () => undefined,
): Promise<readonly TableEnd[]> {
  if (existsSync(to)) throw fileExists(to);
  const temporary = unfinishedCopy(to);
  try {
    // The library says it of a missing folder in words of its own, here and below.
    statSync(dirname(to));
    removeCopy(temporary);
    await connection.backup(temporary, {
      progress: ({ totalPages, remainingPages }) => {
        onStep(totalPages - remainingPages, totalPages);
        return PAGES_PER_STEP;
      },
    });
    // No call of anybody can come between the last step and this.
    return tableEnds(connection);
  } catch (error) {
    removeCopy(temporary);
    throw error instanceof ArchiveRefusal ? error : targetFaultOf(error, to, 'backup');
  }
}

/** Checks the copy, makes it safe and gives it its name. Throws as `copyInSteps` does; the copy is then gone. */
export function keepCopy(to: string, ends: readonly TableEnd[]): WrittenBackup {
  const temporary = unfinishedCopy(to);
  try {
    statSync(temporary);
    closeAndVerify(temporary, ends);
    syncFile(temporary);
    if (existsSync(to)) throw fileExists(to);
    renameWhenFree(temporary, to);
    syncFolder(dirname(to));
    return { path: to, bytes: statSync(to).size };
  } catch (error) {
    removeCopy(temporary);
    throw error instanceof ArchiveRefusal ? error : targetFaultOf(error, to, 'backup', true);
  }
}

function closeAndVerify(path: string, ends: readonly TableEnd[]): void {
  const copy = new Database(path, { fileMustExist: true });
  try {
    // One file without a log beside it.
    copy.pragma('journal_mode = DELETE');
    sayClosed(copy);
    const verdict = z.string().parse(copy.pragma('integrity_check(1)', { simple: true }));
    if (verdict !== 'ok') throw backupDisagrees(verdict);
    if (JSON.stringify(tableEnds(copy)) !== JSON.stringify(ends)) throw backupDisagrees('rows are missing');
  } finally {
    copy.close();
  }
}

const tables = z.object({ name: z.string().regex(/^[a-z_]+$/), wr: z.int() });

/** Of all tables but those of the search, which are derived and checked by `archive check`. */
function tableEnds(connection: Connection): TableEnd[] {
  return allRows(
    connection,
    tables,
    `SELECT name, wr FROM pragma_table_list
     WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'search_%' AND name <> ?
     ORDER BY name`,
    OPEN_TABLE,
  ).map(({ name, wr }) => ({
    table: name,
    end: countOf(
      connection,
      wr === 0 ? `SELECT coalesce(max(rowid), 0) AS n FROM ${name}` : `SELECT count(*) AS n FROM ${name}`,
    ),
  }));
}

/** For whoever was to check it and could not. */
export function dropUnfinishedCopy(to: string): void {
  removeCopy(unfinishedCopy(to));
}

function removeCopy(path: string): void {
  discardPart(path, `${path}-journal`, `${path}-wal`, `${path}-shm`);
}
