/**
 * A backup while a record is made: a few pages at a time between the commits, by the database's own means. Checking the
 * copy takes longer than a commit may wait, so that is done wherever the caller has time for it.
 */
import { statSync, existsSync } from 'node:fs';
import { dirname } from 'node:path';
import { z } from 'zod';
import { ArchiveRefusal } from './archive-fault.ts';
import { type WrittenBackup, backupDisagrees, fileExists } from './backup.ts';
import { withCopy } from './copy-goes-on.ts';
import { syncFile, syncFolder } from './sync-folder.ts';
import { renameWhenFree } from './rename-when-free.ts';
import { type Connection, countOf } from './sql.ts';
import { type TableCount, TableCounts, countedRows } from './table-counts.ts';
import { discardPart } from './discard-part.ts';
import { beginPart, partNameOf } from './left-parts.ts';
import { targetFaultOf } from './target-fault.ts';

/** Copied in a millisecond or so. */
const PAGES_PER_STEP = 64;
/** Counted between two looks at whether it is to be stopped. */
const RANGES_PER_WORD = 50;

/**
 * Copies what stands at the moment of the last step; what is kept meanwhile comes with it. Gives the rows of each table at
 * that moment. Rejects with an ArchiveRefusal where `to` exists, with an ArchiveFault where the copy can't be written, and
 * with what `onStep` throws, by which it is stopped; nothing of the copy is then left.
 */
export async function copyInSteps(
  connection: Connection,
  to: string,
  onStep: (pages: number, ofPages: number) => void = () => undefined,
): Promise<readonly TableCount[]> {
  if (existsSync(to)) throw fileExists(to);
  const temporary = beginPart(to);
  try {
    // The library says it of a missing folder in words of its own, here and below.
    statSync(dirname(to));
    removeCopy(temporary);
    const counts = new TableCounts(connection);
    const pages = countOf(connection, 'SELECT page_count AS n FROM pragma_page_count');
    let ranges = 0;
    for (const step of counts.countAhead()) {
      if (++ranges % RANGES_PER_WORD === 0) onStep(0, pages);
      // A commit that waits comes first.
      await new Promise((done) => setImmediate(done, step));
    }
    await connection.backup(temporary, {
      progress: ({ totalPages, remainingPages }) => {
        onStep(totalPages - remainingPages, totalPages);
        return PAGES_PER_STEP;
      },
    });
    // No call of anybody can come between the last step and this.
    return counts.now();
  } catch (error) {
    removeCopy(temporary);
    throw error instanceof ArchiveRefusal ? error : targetFaultOf(error, to, 'backup');
  }
}

/** Checks the copy, makes it safe and gives it its name. Throws as `copyInSteps` does; the copy is then gone. */
export function keepCopy(to: string, counts: readonly TableCount[]): WrittenBackup {
  const temporary = partNameOf(to);
  try {
    statSync(temporary);
    closeAndVerify(temporary, counts);
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

function closeAndVerify(path: string, counts: readonly TableCount[]): void {
  withCopy(path, (copy) => {
    const verdict = z.string().parse(copy.pragma('integrity_check(1)', { simple: true }));
    if (verdict !== 'ok') throw backupDisagrees(verdict);
    const kept = new Map(countedRows(copy).map(({ table, rows }) => [table, rows]));
    const unlike = counts.find(({ table, rows }) => kept.get(table) !== rows);
    if (unlike !== undefined)
      throw backupDisagrees(
        `${unlike.table} has ${String(kept.get(unlike.table) ?? 'no')} rows instead of ${String(unlike.rows)}`,
      );
  });
}

/** For whoever was to check it and could not. */
export function dropUnfinishedCopy(to: string): void {
  removeCopy(partNameOf(to));
}

function removeCopy(path: string): void {
  discardPart(path, `${path}-journal`, `${path}-wal`, `${path}-shm`);
}
