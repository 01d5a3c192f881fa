/** A backup in the place of an archive: looked at first, copied beside it, checked, and only then renamed. */
import { copyFileSync, existsSync, linkSync, rmSync, statSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { type ArchiveState, RESTORE_PULLS_MAX, type RestorePlan } from '../contract/exchange-requests.ts';
import { hasLog } from './copy-for-reading.ts';
import { Archive } from './archive.ts';
import { ArchiveFault, ArchiveRefusal } from './archive-fault.ts';
import { withCopy } from './copy-goes-on.ts';
import { cutShortAside, forgetRestore, noteRestore, takeBackRestore } from './cut-short-restore.ts';
import { refuseHalfCopy, sayClosed } from './half-copy.ts';
import { writeBackup } from './backup.ts';
import { syncFile, syncFolder } from './sync-folder.ts';
import { renameWhenFree } from './rename-when-free.ts';
import { dropAside, dropSpools, nameAside, putArchiveBack, setArchiveAside } from './set-aside.ts';
import { allRows, sqlBlob, sqlInteger } from './sql.ts';
import { discardPart } from './discard-part.ts';
import { beginPart } from './left-parts.ts';
import { targetFaultOf } from './target-fault.ts';

interface Reading {
  readonly programVersion: string;
  readonly wallMs: () => number;
}

/** What a restore would change. Nothing is changed. Throws an ArchiveFault where the backup is not sound. */
export function planRestore(backupPath: string, archivePath: string, reading: Reading): RestorePlan {
  if (resolve(backupPath) === resolve(archivePath))
    throw new ArchiveRefusal(
      'restore-of-itself',
      `${backupPath} is the archive itself; give a backup.`,
      'backup',
    );
  const backup = look(backupPath, reading);
  // What a cut-short restore had set aside is put back before the backup takes its place.
  const standing = existsSync(archivePath) ? archivePath : cutShortAside(resolve(archivePath));
  if (standing === null) return planOf(backup, null);
  try {
    return planOf(backup, look(standing, reading));
  } catch (error) {
    // A damaged archive is what a restore is for; one that another program has open is not touched.
    if (!(error instanceof ArchiveFault) || error.code === 'archive-in-use') throw error;
    return planOf(backup, error.message);
  }
}

/** The same for an archive that is open here. */
export function planRestoreInto(archive: Archive, backupPath: string, reading: Reading): RestorePlan {
  if (resolve(backupPath) === archive.path)
    throw new ArchiveRefusal('restore-of-itself', 'That is this very archive; choose a backup.', 'backup');
  return planOf(look(backupPath, reading), lookedAt(archive));
}

/** Two archives have pulls of the same number: the start tells them apart. */
interface PullSeen {
  readonly pull_id: number;
  readonly started_wall_ms: number;
}

interface LookedAt {
  readonly state: ArchiveState;
  readonly identity: string;
  readonly pulls: readonly PullSeen[];
  /** Hashes of the audit chain. */
  readonly statements: ReadonlySet<string>;
}

function planOf(backup: LookedAt, here: LookedAt | string | null): RestorePlan {
  const both =
    typeof here === 'string' ? { there: [], own: [] } : { there: backup.pulls, own: here?.pulls ?? [] };
  const without = (pulls: readonly PullSeen[], other: readonly PullSeen[]): number[] => {
    const known = new Map(other.map((one) => [one.pull_id, one.started_wall_ms]));
    return pulls
      .filter((one) => known.get(one.pull_id) !== one.started_wall_ms)
      .map(({ pull_id: pullId }) => pullId);
  };
  const onlyHere = without(both.own, both.there);
  const onlyInBackup = without(both.there, both.own);
  return {
    backup: backup.state,
    here: here === null || typeof here === 'string' ? here : here.state,
    isSameArchive: here === null || typeof here === 'string' ? null : here.identity === backup.identity,
    onlyHere: onlyHere.slice(0, RESTORE_PULLS_MAX),
    onlyHereCount: onlyHere.length,
    onlyInBackup: onlyInBackup.slice(0, RESTORE_PULLS_MAX),
    onlyInBackupCount: onlyInBackup.length,
    statementsOnlyHere:
      here === null || typeof here === 'string'
        ? 0
        : [...here.statements].filter((hash) => !backup.statements.has(hash)).length,
  };
}

function look(path: string, reading: Reading): LookedAt {
  const archive = new Archive(path, { ...reading, purpose: 'read' });
  try {
    refuseHalfCopy(path, archive.isHalfCopy);
    const verdict = z.string().parse(archive.connection.pragma('integrity_check(1)', { simple: true }));
    if (verdict !== 'ok')
      throw new ArchiveFault('archive-damaged', `The file ${path} is damaged; nothing was changed.`, verdict);
    return lookedAt(archive);
  } finally {
    archive.close();
  }
}

function lookedAt(archive: Archive): LookedAt {
  const { pullCount, specimenCount, readingCount } = archive.info();
  const pulls = allRows(
    archive.connection,
    z.object({ pull_id: sqlInteger, started_wall_ms: sqlInteger }),
    'SELECT pull_id, started_wall_ms FROM pull ORDER BY pull_id',
  );
  return {
    identity: archive.identity(),
    pulls,
    statements: new Set(
      allRows(archive.connection, z.object({ hash: sqlBlob }), 'SELECT hash FROM audit').map(({ hash }) =>
        Buffer.from(hash).toString('hex'),
      ),
    ),
    state: {
      path: archive.path,
      pullCount,
      specimenCount,
      readingCount,
      lastPullWallMs: pulls.at(-1)?.started_wall_ms ?? null,
    },
  };
}

/** How files get other names; handed in by tests. */
export interface Moves {
  readonly rename: typeof renameWhenFree;
  readonly link: typeof linkSync;
}
const MOVES: Moves = { rename: renameWhenFree, link: linkSync };

/**
 * Copies it and puts it in the archive's place, in one go. Where the archive that was there is now; null where there was
 * none. Nothing may have it open.
 */
export function restoreBackup(
  backupPath: string,
  archivePath: string,
  reading: Reading,
  moves = MOVES,
): string | null {
  const full = resolve(archivePath);
  const temporary = beginPart(full);
  try {
    rmSync(temporary, { force: true });
    if (hasLog(resolve(backupPath))) copyWithLog(backupPath, temporary, reading);
    else {
      copyFileSync(resolve(backupPath), temporary);
      syncFile(temporary);
      refuseCutShort(backupPath, full, temporary);
    }
  } catch (error) {
    discardPart(temporary);
    throw targetFaultOf(error, full, 'backup');
  }
  return putInPlace(temporary, full, reading.wallMs(), moves);
}

/** Read and written at once. */
const PIECE_BYTES = 4 * 1024 * 1024;

/**
 * A copy of the backup beside the archive, which may be open meanwhile; its path is what `putInPlace` takes. `onStep` may
 * throw between two pieces: nothing is left then. An archive that was copied with its log beside it is brought together
 * in one go, since the copy of the main file alone would lack what is in the log.
 */
export async function copyBeside(
  backupPath: string,
  archivePath: string,
  reading: Reading,
  onStep: (doneBytes: number, ofBytes: number) => void,
): Promise<string> {
  const full = resolve(archivePath);
  const temporary = beginPart(full);
  try {
    rmSync(temporary, { force: true });
    const { size } = statSync(resolve(backupPath));
    onStep(0, size);
    if (hasLog(resolve(backupPath))) copyWithLog(backupPath, temporary, reading);
    else {
      await copyInPieces(resolve(backupPath), temporary, (done) => onStep(done, size));
      refuseCutShort(backupPath, full, temporary);
    }
    return temporary;
  } catch (error) {
    discardPart(temporary);
    throw targetFaultOf(error, full, 'backup');
  }
}

async function copyInPieces(from: string, to: string, onPiece: (doneBytes: number) => void): Promise<void> {
  await using source = await open(from, 'r');
  await using target = await open(to, 'wx');
  const piece = Buffer.alloc(PIECE_BYTES);
  for (let done = 0; ;) {
    const { bytesRead } = await source.read(piece, 0, piece.length, done);
    if (bytesRead === 0) break;
    for (let written = 0; written < bytesRead;)
      written += (await target.write(piece, written, bytesRead - written, done + written)).bytesWritten;
    done += bytesRead;
    onPiece(done);
  }
  await target.sync();
}

const WHY = 'before-restore';

/**
 * A copy takes the archive's place, which nothing may have open. Where the archive that was there is now; null where there
 * was none. That one gets its second name first and is then replaced in one go, so that whoever is killed meanwhile leaves
 * the one or the other at that place. Where it can't have two names (a file system without them, a damaged one with its
 * log) it is renamed before, with a note beside it by which the next opening puts it back when this is killed
 * (`cut-short-restore.ts`); where the copy can't take its place then, it is put back at once, and where not even that can
 * be done, the fault names where it lies. The copy is gone or in place afterwards.
 */
export function putInPlace(
  temporary: string,
  archivePath: string,
  wallMs: number,
  moves = MOVES,
): string | null {
  const full = resolve(archivePath);
  try {
    takeBackRestore(full, moves.rename);
    // What was given as a backup may be a plain copy of an archive.
    withCopy(temporary);
    syncFile(temporary);
    const aside = existsSync(full) ? replaceArchive(temporary, full, wallMs, moves) : null;
    if (aside === null) takePlace(temporary, full, null, moves.rename);
    syncFolder(dirname(full));
    return aside;
  } catch (error) {
    discardPart(temporary);
    throw targetFaultOf(error, full, 'backup');
  }
}

/** Where the archive that stood there is now. */
function replaceArchive(temporary: string, full: string, wallMs: number, { rename, link }: Moves): string {
  takeLogIn(full);
  const named = nameAside(full, wallMs, WHY, link);
  if (named !== null) {
    takeOver(temporary, full, named, rename);
    return named;
  }
  const aside = setArchiveAside(full, wallMs, WHY, rename, (its) => noteRestore(full, its));
  takePlace(temporary, full, aside, rename);
  syncFolder(dirname(full));
  forgetRestore(full);
  return aside;
}

/** What a killed program left in the log comes into the file; with a damaged one its log stays. */
function takeLogIn(full: string): void {
  if (!hasLog(full)) return;
  try {
    const connection = new Database(full, { fileMustExist: true, timeout: 0 });
    try {
      connection.pragma('locking_mode = EXCLUSIVE');
      connection.pragma('wal_checkpoint(TRUNCATE)');
      sayClosed(connection);
    } finally {
      connection.close();
    }
  } catch {
    // Both go aside together.
  }
}

/** The copy in the place of the archive, which has a second name, in one go. */
function takeOver(temporary: string, full: string, aside: string, rename: typeof renameWhenFree): void {
  try {
    rename(temporary, full);
  } catch (error) {
    dropAside(aside);
    throw new ArchiveFault(
      'archive-unreadable',
      notNamedSentence(full),
      error instanceof Error ? error.message : String(error),
    );
  }
  dropSpools(full);
}

const notNamedSentence = (full: string): string =>
  `The backup could not be given the name ${full}: another program holds it, or the medium gave an error. The archive stands where it stood, unchanged; close what holds files in that folder and restore again.`;

/** The copy under the archive's name, which nothing bears any more. Throws an ArchiveFault that says where the archive is. */
function takePlace(
  temporary: string,
  full: string,
  aside: string | null,
  rename: typeof renameWhenFree,
): void {
  try {
    rename(temporary, full);
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    if (aside === null)
      throw new ArchiveFault(
        'archive-unreadable',
        `The backup could not be given the name ${full}: another program holds it, or the medium gave an error. There was no archive there, and the backup is untouched; try again, or restore to another place.`,
        detail,
      );
    try {
      putArchiveBack(aside, full, rename);
    } catch {
      throw new ArchiveFault(
        'archive-unreadable',
        `The backup could not be given the name ${full}, and the archive that stood there could not be put back: it lies whole at ${aside}, with its log and spools beside it. Close what holds files in that folder, then rename it back or restore again.`,
        detail,
      );
    }
    forgetRestore(full);
    throw new ArchiveFault('archive-unreadable', notNamedSentence(full), detail);
  }
}

function copyWithLog(backupPath: string, temporary: string, reading: Reading): void {
  const backup = new Archive(backupPath, { ...reading, purpose: 'read' });
  try {
    writeBackup(backup.connection, temporary);
  } finally {
    backup.close();
  }
}

function refuseCutShort(backupPath: string, full: string, temporary: string): void {
  if (statSync(temporary).size === statSync(resolve(backupPath)).size) return;
  throw new ArchiveFault(
    'archive-unreadable',
    `The copy of ${backupPath} did not arrive whole beside ${full}; nothing was changed, try another disk.`,
  );
}
