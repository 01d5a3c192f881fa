/**
 * Bytes as a file: to a temporary name, synced, read back and compared, renamed. Whole or not at all. The window's own
 * process writes by it too, which loads no archive.
 */
import { existsSync } from 'node:fs';
import { open, readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { discardPart } from '../../core/archive/discard-part.ts';
import { beginPart } from '../../core/archive/left-parts.ts';
import {
  type DiskTrouble,
  diskTroubleOf,
  targetSentence,
  troubleWhenBegun,
} from '../../core/archive/disk-trouble.ts';
import { renameWhenFree } from '../../core/archive/rename-when-free.ts';
import { syncFolder } from '../../core/archive/sync-folder.ts';

/** What sentences call it. */
export const WRITTEN_THINGS = [
  'table',
  'picture',
  'certificate',
  'photo',
  'readout profile',
  'rule pack',
] as const;
export type WrittenThing = (typeof WRITTEN_THINGS)[number];

export interface BytesToWrite {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly what: WrittenThing;
  /** A file that is there stays until the new one is on the disk, and is then replaced: a person has agreed to that. */
  readonly replace?: boolean;
}

/** Why there is no file; the message is a sentence for the person. */
export class FileNotWritten extends Error {
  override readonly name = 'FileNotWritten';
  readonly trouble: DiskTrouble | 'gone' | 'exists' | 'not-whole';
  /** What the system itself said. */
  readonly detail: string | undefined;

  constructor(trouble: FileNotWritten['trouble'], sentence: string, detail?: string) {
    super(sentence);
    this.trouble = trouble;
    this.detail = detail;
  }
}

/**
 * Gives the whole path. Throws a FileNotWritten where a file is there that is not to be replaced, where it can't be
 * written or did not arrive whole. `write`: how the bytes get to the temporary name.
 */
export async function writeWholeBytes(
  { path: asked, bytes, what, replace = false }: BytesToWrite,
  write: (path: string, bytes: Uint8Array) => Promise<void> = writeSynced,
): Promise<string> {
  const path = resolve(asked);
  if (!replace) refuseExisting(path);
  const temporary = beginPart(path);
  let isBegun = false;
  try {
    await write(temporary, bytes);
    isBegun = true;
    if (!(await readFile(temporary)).equals(bytes))
      throw new FileNotWritten(
        'not-whole',
        `The ${what} did not arrive whole at ${path}, so it was not kept; try another disk. The archive is untouched.`,
      );
    // Somebody else's file may have come there meanwhile.
    if (!replace) refuseExisting(path);
    renameWhenFree(temporary, path);
    syncFolder(dirname(path));
    return path;
  } catch (error) {
    discardPart(temporary);
    throw troubleOf(error, { path, what, isBegun });
  }
}

function refuseExisting(path: string): void {
  if (existsSync(path))
    throw new FileNotWritten(
      'exists',
      `The file ${path} exists already and is not written over; choose another name.`,
    );
}

/** The error itself where it speaks of nothing that a person could do. */
function troubleOf(
  error: unknown,
  { path, what, isBegun }: { readonly path: string; readonly what: string; readonly isBegun: boolean },
): unknown {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return error;
  const trouble = diskTroubleOf(error.code, path);
  if (trouble === null) return error;
  const found = isBegun ? troubleWhenBegun(trouble) : trouble;
  return new FileNotWritten(found, targetSentence(found, path, what), error.message);
}

async function writeSynced(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'wx');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}
