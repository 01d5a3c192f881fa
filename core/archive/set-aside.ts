/** Setting an archive aside, damaged or before a backup takes its place: renamed with the date together with its log and spools, never deleted. */
import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import { syncFolder } from './sync-folder.ts';
import { renameWhenFree } from './rename-when-free.ts';

/** What belongs to an archive file and must stay with it. */
const COMPANIONS = ['', '-wal', '-journal', '-spool-a', '-spool-b'];

/**
 * The name that the file itself now has. Nothing must have it open. Where one of them can't be renamed, those before it get
 * their names back and the error is thrown.
 */
export function setArchiveAside(
  path: string,
  wallMs: number,
  why = 'damaged',
  rename = renameWhenFree,
): string {
  const stamp = new Date(wallMs).toISOString().replace(/[:.]/g, '-');
  const aside = freeName(`${path}.${why}-${stamp}`);
  renameAll(path, aside, rename);
  syncFolder(dirname(path));
  return aside;
}

/** An archive that was set aside, at its place again. Throws what the file system threw; all of it is then still aside. */
export function putArchiveBack(aside: string, path: string, rename = renameWhenFree): void {
  renameAll(aside, path, rename);
  syncFolder(dirname(path));
}

function renameAll(from: string, to: string, rename: typeof renameWhenFree): void {
  const renamed: string[] = [];
  try {
    for (const companion of COMPANIONS)
      if (existsSync(from + companion)) {
        rename(from + companion, to + companion);
        renamed.push(companion);
      }
  } catch (error) {
    for (const companion of renamed) rename(to + companion, from + companion);
    throw error;
  }
}

function freeName(wanted: string): string {
  let name = wanted;
  for (let n = 2; existsSync(name); n++) name = `${wanted}-${n}`;
  return name;
}
