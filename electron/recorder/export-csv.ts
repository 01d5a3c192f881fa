/** One pull as a CSV file: to a temporary name, its lines counted again, synced, renamed; never over a file that is there. */
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Archive } from '../../core/archive/archive.ts';
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { syncFolder } from '../../core/archive/backup.ts';
import { targetFaultOf } from '../../core/archive/target-fault.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { ReadingColumns } from '../../core/contract/reading.ts';
import { LINE_END } from '../../core/exchange/export/csv-form.ts';
import { pullCsvLines } from '../../core/exchange/export/pull-csv.ts';

const READINGS_AT_ONCE = 50_000;
const LINES_AT_ONCE = 5_000;
const PIECE_BYTES = 1_048_576;

export interface WrittenExport {
  readonly path: string;
  readonly readingCount: number;
  readonly bytes: number;
}

/** Throws an ArchiveRefusal where the file exists, an ArchiveFault where it can't be written. */
export function exportCsv(archive: Archive, pullId: number, to: string): WrittenExport {
  const path = resolve(to);
  const pull = archive.getPull(pullId);
  if (existsSync(path))
    throw new ArchiveRefusal(
      'file-exists',
      `The file ${path} exists already and is not written over; choose another name.`,
      'to',
    );
  const temporary = `${path}.part-${process.pid}`;
  try {
    const lineCount = writeLines(linesOf(archive, pull), temporary);
    const bytes = statSync(temporary).size;
    if (linesIn(temporary) !== lineCount)
      throw new ArchiveFault(
        'archive-unreadable',
        `The export to ${path} did not arrive whole on its disk, so it was not kept; try another disk.`,
      );
    renameSync(temporary, path);
    syncFolder(dirname(path));
    return { path, readingCount: pull.readingCount, bytes };
  } catch (error) {
    rmSync(temporary, { force: true });
    throw targetFaultOf(error, path, 'export');
  }
}

/** The time of the curve is that of the evaluation, so that an exported curve gives the same results again. */
function linesOf(archive: Archive, pull: KeptPull): Generator<string> {
  const { curve, timeFrom } = archive.curve(pull.pullId);
  const readoutTimeS = timeFrom === 'readout' ? curve.timeS : undefined;
  return pullCsvLines(pull, blocksOf(archive, pull), readoutTimeS === undefined ? {} : { readoutTimeS });
}

function* blocksOf(archive: Archive, { pullId, readingCount }: KeptPull): Generator<ReadingColumns> {
  for (let fromSeq = 0; fromSeq < readingCount; fromSeq += READINGS_AT_ONCE)
    yield archive.readColumns({ pullId, fromSeq, count: READINGS_AT_ONCE, shown: true }).columns;
}

/** How many lines were written. */
function writeLines(lines: Iterable<string>, temporary: string): number {
  const file = openSync(temporary, 'wx');
  try {
    let lineCount = 0;
    let held: string[] = [];
    const write = (): void => {
      const bytes = Buffer.from(held.join(''), 'utf8');
      let written = 0;
      while (written < bytes.length) written += writeSync(file, bytes, written);
      held = [];
    };
    for (const line of lines) {
      held.push(line + LINE_END);
      lineCount++;
      if (held.length === LINES_AT_ONCE) write();
    }
    write();
    fsyncSync(file);
    return lineCount;
  } finally {
    closeSync(file);
  }
}

/** Counted piece by piece: an export may be larger than memory. */
function linesIn(path: string): number {
  const file = openSync(path, 'r');
  try {
    const piece = Buffer.alloc(PIECE_BYTES);
    let count = 0;
    for (let length = readSync(file, piece); length > 0; length = readSync(file, piece))
      for (let at = piece.indexOf(10); at !== -1 && at < length; at = piece.indexOf(10, at + 1)) count++;
    return count;
  } finally {
    closeSync(file);
  }
}
