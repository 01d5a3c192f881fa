/** The file that a pull was imported from, byte for byte; runs in the archive's own thread. */
import { createHash } from 'node:crypto';
import type { Archive } from '../../core/archive/archive.ts';
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { rawSha256 } from '../../core/archive/raw-hash.ts';
import { writeWholeText } from '../exports/whole-text.ts';
import type { WrittenExport } from './export-csv.ts';
import { type LongWork, UNWATCHED } from './long-work.ts';

/**
 * Under the name that a person gives; what the file was once called makes no path. Throws an ArchiveRefusal where the
 * pull came from no file, its bytes are not those that were imported, or a file is there already, an ArchiveFault where
 * it can't be written: there is none then.
 */
export function exportOriginal(
  archive: Archive,
  pullId: number,
  to: string,
  work: LongWork = UNWATCHED,
): WrittenExport {
  const { source, readingCount } = archive.getPull(pullId);
  const sha256 = archive.sets((connection) => rawSha256(connection, pullId));
  if (source.kind !== 'imported' || sha256 === null)
    throw new ArchiveRefusal(
      'pull-not-imported',
      `Pull ${String(pullId)} was imported from no file, so there is none to write; its raw bytes stand in the export as JSON.`,
      'pullId',
    );
  const written = writeWholeText(bytesOf(archive, pullId, sha256, work), to);
  return { ...written, readingCount, parts: [], remark: `SHA-256 ${sha256}` };
}

function* bytesOf(archive: Archive, pullId: number, sha256: string, work: LongWork): Generator<Uint8Array> {
  const hash = createHash('sha256');
  for (const { bytes } of archive.rawChunks(pullId)) {
    work.step('export', 0, 0);
    hash.update(bytes);
    yield bytes;
  }
  if (hash.digest('hex') !== sha256)
    throw new ArchiveRefusal(
      'original-damaged',
      `The bytes of the file of pull ${String(pullId)} are no longer those that were imported, so none was written; let the archive be checked.`,
      'pullId',
    );
}
