/** Setting a damaged archive aside: renamed with the date together with its log and spools, never deleted. */
import { existsSync, renameSync } from 'node:fs';
import { dirname } from 'node:path';
import { syncFolder } from './backup.ts';

/** What belongs to an archive file and must stay with it. */
const COMPANIONS = ['', '-wal', '-journal', '-spool-a', '-spool-b'];

/** The name that the file itself now has. Nothing must have it open. */
export function setArchiveAside(path: string, wallMs: number): string {
  const stamp = new Date(wallMs).toISOString().replace(/[:.]/g, '-');
  const aside = freeName(`${path}.damaged-${stamp}`);
  for (const companion of COMPANIONS)
    if (existsSync(path + companion)) renameSync(path + companion, aside + companion);
  syncFolder(dirname(path));
  return aside;
}

function freeName(wanted: string): string {
  let name = wanted;
  for (let n = 2; existsSync(name); n++) name = `${wanted}-${n}`;
  return name;
}
