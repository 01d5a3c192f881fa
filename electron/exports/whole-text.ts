/** A text of any length, or bytes, as a file: to a temporary name, synced, read back against its hash, renamed; never over a file that is there. */
import { createHash } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, openSync, readSync, writeSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { discardPart } from '../../core/archive/discard-part.ts';
import { beginPart } from '../../core/archive/left-parts.ts';
import { renameWhenFree } from '../../core/archive/rename-when-free.ts';
import { syncFolder } from '../../core/archive/sync-folder.ts';
import { targetFaultOf } from '../../core/archive/target-fault.ts';

/** Signs held before they are written: an export may be larger than memory. */
const HELD_SIGNS = 1_048_576;
const PIECE_BYTES = 1_048_576;

export interface WrittenText {
  readonly path: string;
  readonly bytes: number;
}

/** Throws an ArchiveRefusal where the file is there already. */
export function refuseExisting(path: string): void {
  if (existsSync(path))
    throw new ArchiveRefusal(
      'file-exists',
      `The file ${path} exists already and is not written over; choose another name.`,
      'to',
    );
}

/** Text is written as UTF-8, bytes as they are. */
export type Piece = string | Uint8Array;

export interface TextToWrite {
  readonly pieces: Iterable<Piece>;
  readonly to: string;
}

/** Throws an ArchiveRefusal where the file exists, an ArchiveFault where it can't be written or did not arrive whole. */
export function writeWholeText(pieces: Iterable<Piece>, to: string): WrittenText {
  const [written] = writeWholeTexts([{ pieces, to }]);
  return written ?? { path: resolve(to), bytes: 0 };
}

/** Several that belong together: all of them, or none. Throws as one does. */
export function writeWholeTexts(texts: readonly TextToWrite[]): WrittenText[] {
  const files = texts.map(({ pieces, to }) => {
    const path = resolve(to);
    return { pieces, path, temporary: beginPart(path) };
  });
  for (const { path } of files) refuseExisting(path);
  const inPlace: string[] = [];
  let present = files[0]?.path ?? '';
  let isBegun = false;
  try {
    const written = files.map(({ pieces, path, temporary }) => {
      present = path;
      const { bytes, sha256 } = writePieces(pieces, temporary);
      isBegun = true;
      if (hashOf(temporary) !== sha256)
        throw new ArchiveFault(
          'archive-unreadable',
          `The export to ${path} did not arrive whole on its disk, so it was not kept; try another disk.`,
        );
      return { path, bytes };
    });
    for (const { path, temporary } of files) {
      present = path;
      renameWhenFree(temporary, path);
      inPlace.push(path);
    }
    for (const folder of new Set(files.map(({ path }) => dirname(path)))) syncFolder(folder);
    return written;
  } catch (error) {
    discardPart(...files.map(({ temporary }) => temporary), ...inPlace);
    throw targetFaultOf(error, present, 'export', isBegun);
  }
}

function writePieces(pieces: Iterable<Piece>, temporary: string): { bytes: number; sha256: string } {
  const file = openSync(temporary, 'wx');
  const hash = createHash('sha256');
  let bytes = 0;
  let held: string[] = [];
  let signs = 0;
  const writeBlock = (block: Uint8Array): void => {
    hash.update(block);
    bytes += block.length;
    for (let written = 0; written < block.length;) written += writeSync(file, block, written);
  };
  const write = (): void => {
    writeBlock(Buffer.from(held.join(''), 'utf8'));
    held = [];
    signs = 0;
  };
  try {
    for (const piece of pieces) {
      if (typeof piece !== 'string') {
        write();
        writeBlock(piece);
        continue;
      }
      held.push(piece);
      signs += piece.length;
      if (signs >= HELD_SIGNS) write();
    }
    write();
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  return { bytes, sha256: hash.digest('hex') };
}

function hashOf(path: string): string {
  const file = openSync(path, 'r');
  try {
    const hash = createHash('sha256');
    const piece = Buffer.alloc(PIECE_BYTES);
    for (let length = readSync(file, piece); length > 0; length = readSync(file, piece))
      hash.update(piece.subarray(0, length));
    return hash.digest('hex');
  } finally {
    closeSync(file);
  }
}
