/** Files that a split was making when it was killed: they bear the number of its process, which is no longer there. */
import { lstatSync, readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { discardPart } from './discard-part.ts';
import { networkShareName } from './network-share.ts';

/** Of an archive that is split, without its ending: what its parts are named after. */
export const stemOf = (archivePath: string): string => basename(archivePath).replace(/\.[^.]*$/, '');

/** Of a part or of the copy that the parts are made from; what follows is the process that makes it. */
export const PART = '.part-';
export const COPY = '.copy-';

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/**
 * In this folder, of splits of an archive of this name, by the whole form of their names. None that a process still makes,
 * and none on a network share: there it may be a process of another machine.
 */
export function leftParts(folder: string, archivePath: string): string[] {
  if (networkShareName(folder) !== null) return [];
  const beside = '(?:-wal|-journal|-shm)?';
  const part = `${escaped(stemOf(archivePath))}-\\d{1,5}\\.gaugemark${escaped(PART)}(\\d{1,10})${beside}`;
  const copy = `${escaped(basename(archivePath))}${escaped(COPY)}(\\d{1,10})(?:${escaped(PART)}\\d{1,10})?${beside}`;
  const form = new RegExp(`^(?:${part}|${copy})$`);
  return readdirSync(folder).flatMap((name) => {
    const [, ofPart, ofCopy] = form.exec(name) ?? [];
    const pid = Number(ofPart ?? ofCopy);
    if (!Number.isSafeInteger(pid) || pid === 0 || isThere(pid)) return [];
    const path = join(folder, name);
    return lstatSync(path, { throwIfNoEntry: false })?.isFile() === true ? [path] : [];
  });
}

/** Takes them away; their paths. One that can't be taken away stays, and nothing takes it for an archive. */
export function discardLeftParts(folder: string, archivePath: string): string[] {
  const left = leftParts(folder, archivePath);
  discardPart(...left);
  return left;
}

/** Whoever's it is: a number that was given to another process since keeps a file that could go. */
function isThere(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return !(error instanceof Error && 'code' in error && error.code === 'ESRCH');
  }
}
