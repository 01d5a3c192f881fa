/** Setting an archive aside, damaged or before a backup takes its place: renamed with the date together with its log and spools, never deleted. */
import { copyFileSync, existsSync, linkSync, readdirSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { hasLog } from './copy-for-reading.ts';
import { discardPart } from './discard-part.ts';
import { syncFile, syncFolder } from './sync-folder.ts';
import { renameWhenFree } from './rename-when-free.ts';

const SPOOLS = ['-spool-a', '-spool-b'] as const;
/** What belongs to an archive file and must stay with it. */
const COMPANIONS = ['', '-wal', '-journal', ...SPOOLS];

/**
 * The name that the file itself now has, told to `onNamed` before anything is renamed. Nothing must have it open. Where one
 * of them can't be renamed, those before it get their names back and the error is thrown.
 */
export function setArchiveAside(
  path: string,
  wallMs: number,
  why = 'damaged',
  rename = renameWhenFree,
  onNamed: (aside: string) => void = () => undefined,
): string {
  const aside = freeAside(path, wallMs, why);
  onNamed(aside);
  renameAll(COMPANIONS, path, aside, rename);
  syncFolder(dirname(path));
  return aside;
}

/**
 * An archive that was set aside, at its place again, the file itself last: until it stands there, not all of it does. Throws
 * what the file system threw; all of it is then still aside.
 */
export function putArchiveBack(aside: string, path: string, rename = renameWhenFree): void {
  renameAll(COMPANIONS.toReversed(), aside, path, rename);
  syncFolder(dirname(path));
}

/**
 * The archive under a second name, with copies of its spools, while it stands at its place as well: whoever is killed then
 * leaves the archive where it was. What then takes that place has to do it in one go. Null, and nothing is left, where
 * something that belongs to its content lies beside the file, since that would have to go at the same moment, and where
 * the file system knows no second names.
 */
export function nameAside(path: string, wallMs: number, why: string, link = linkSync): string | null {
  if (hasLog(path)) return null;
  dropSecondNames(path, why);
  const aside = freeAside(path, wallMs, why);
  try {
    link(path, aside);
    for (const spool of SPOOLS)
      if (existsSync(path + spool)) {
        copyFileSync(path + spool, aside + spool);
        syncFile(aside + spool);
      }
    syncFolder(dirname(path));
    return aside;
  } catch {
    dropAside(aside);
    return null;
  }
}

/** A second name goes away again, the archive stays at its place. */
export function dropAside(aside: string): void {
  discardPart(aside, ...SPOOLS.map((spool) => aside + spool));
}

/** The archive's spools, of which there are copies at its second name: they belong to nothing at its place any more. */
export function dropSpools(path: string): void {
  discardPart(...SPOOLS.map((spool) => path + spool));
}

/** Left by whoever was killed before something else took the archive's place: the same file twice. */
function dropSecondNames(path: string, why: string): void {
  const own = statSync(path, { bigint: true });
  if (own.nlink < 2n) return;
  const folder = dirname(path);
  for (const name of readdirSync(folder)) {
    if (!name.startsWith(`${basename(path)}.${why}-`)) continue;
    const its = statSync(join(folder, name), { bigint: true, throwIfNoEntry: false });
    if (its?.ino === own.ino && its.dev === own.dev) dropAside(join(folder, name));
  }
}

function renameAll(
  companions: readonly string[],
  from: string,
  to: string,
  rename: typeof renameWhenFree,
): void {
  const renamed: string[] = [];
  try {
    for (const companion of companions)
      if (existsSync(from + companion)) {
        rename(from + companion, to + companion);
        renamed.push(companion);
      }
  } catch (error) {
    for (const companion of renamed) rename(to + companion, from + companion);
    throw error;
  }
}

function freeAside(path: string, wallMs: number, why: string): string {
  const wanted = `${path}.${why}-${new Date(wallMs).toISOString().replace(/[:.]/g, '-')}`;
  let name = wanted;
  for (let n = 2; existsSync(name); n++) name = `${wanted}-${n}`;
  return name;
}
