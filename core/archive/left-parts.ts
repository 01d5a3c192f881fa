/** Files that somebody was making when it was killed: they bear the number of its process, which is no longer there. */
import { lstatSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { nameWithoutEnding } from '../exchange/backup-ages.ts';
import { discardPart } from './discard-part.ts';
import { networkShareName } from './network-share.ts';

/** Of an archive that is split: what its parts are named after. */
export const stemOf = (archivePath: string): string => nameWithoutEnding(basename(archivePath));

/** Of a part or of the copy that the parts are made from; what follows is the process that makes it. */
const PART = '.part-';
export const COPY = '.copy-';

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** What the database lays beside a file while it writes there. */
const BESIDE = '(?:-wal|-journal|-shm)?';

/**
 * Files of a folder whose names say a process that is no longer there. None that a process still makes, and none on a
 * network share: there it may be a process of another machine.
 */
function leftIn(folder: string, processOf: (name: string) => string | undefined): string[] {
  if (networkShareName(folder) !== null) return [];
  return readdirSync(folder).flatMap((name) => {
    const pid = Number(processOf(name));
    if (!Number.isSafeInteger(pid) || pid === 0 || isThere(pid)) return [];
    const path = join(folder, name);
    return lstatSync(path, { throwIfNoEntry: false })?.isFile() === true ? [path] : [];
  });
}

/** In this folder, of splits of an archive of this name, by the whole form of their names. */
export function leftParts(folder: string, archivePath: string): string[] {
  const part = `${escaped(stemOf(archivePath))}-\\d{1,5}\\.gaugemark${escaped(PART)}(\\d{1,10})${BESIDE}`;
  const copy = `${escaped(basename(archivePath))}${escaped(COPY)}(\\d{1,10})(?:${escaped(PART)}\\d{1,10})?${BESIDE}`;
  const form = new RegExp(`^(?:${part}|${copy})$`);
  return leftIn(folder, (name) => {
    const [, ofPart, ofCopy] = form.exec(name) ?? [];
    return ofPart ?? ofCopy;
  });
}

const PART_OF = new RegExp(`^(.+)${escaped(PART)}(\\d{1,10})${BESIDE}$`);

/** Takes away what is left in this folder of files that were to bear such a name. */
export function discardLeftOf(folder: string, isWhole: (name: string) => boolean): void {
  try {
    const left = leftIn(folder, (name) => {
      const [, whole, pid] = PART_OF.exec(name) ?? [];
      return whole !== undefined && isWhole(whole) ? pid : undefined;
    });
    discardPart(...left);
  } catch {
    // A folder that can't be listed: whoever writes there says what is wrong with it.
  }
}

/** The name under which this process writes a file before it is whole; what others were killed over is taken away. */
export function beginPart(path: string): string {
  discardLeftOf(dirname(path), (name) => name === basename(path));
  return partNameOf(path);
}

export const partNameOf = (path: string): string => `${path}${PART}${String(process.pid)}`;

/** Takes them away; their paths. One that can't be taken away stays, and nothing takes it for an archive. */
export function discardLeftParts(folder: string, archivePath: string): string[] {
  const left = leftParts(folder, archivePath);
  discardPart(...left);
  return left;
}

/** Whoever's it is: a number that was given to another process since keeps a file that could go. */
export function isThere(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return !(error instanceof Error && 'code' in error && error.code === 'ESRCH');
  }
}
