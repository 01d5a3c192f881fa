/** Setting an archive aside, damaged or before a backup takes its place: renamed with the date together with its log and spools, never deleted. */
import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import { syncFolder } from './backup.ts';
import { renameWhenFree } from './rename-when-free.ts';

/** What belongs to an archive file and must stay with it. */
const COMPANIONS = ['', '-wal', '-journal', '-spool-a', '-spool-b'];

/** The name that the file itself now has. Nothing must have it open. */
export function setArchiveAside(path: string, wallMs: number, why = 'damaged'): string {
  const stamp = new Date(wallMs).toISOString().replace(/[:.]/g, '-');
  const aside = freeName(`${path}.${why}-${stamp}`);
  for (const companion of COMPANIONS)
    if (existsSync(path + companion)) renameWhenFree(path + companion, aside + companion);
  syncFolder(dirname(path));
  return aside;
}

function freeName(wanted: string): string {
  let name = wanted;
  for (let n = 2; existsSync(name); n++) name = `${wanted}-${n}`;
  return name;
}
