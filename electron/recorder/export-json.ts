/** One pull with everything that is kept of it as a JSON document; runs in the archive's own thread. */
import type { Archive } from '../../core/archive/archive.ts';
import { getPhoto, photosOf } from '../../core/archive/photo-store.ts';
import { rawSha256 } from '../../core/archive/raw-hash.ts';
import { saidOfPull } from '../../core/archive/said-of-pull.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { KeptEvaluationDocument } from '../../core/exchange/export/evaluation-document.ts';
import type { DocumentVerdict } from '../../core/exchange/export/document-statements.ts';
import { pullDocumentPieces } from '../../core/exchange/export/write-pull-document.ts';
import { importReadings } from '../../core/exchange/import/import-readings.ts';
import type { ImportRecord } from '../../core/exchange/import/import-report.ts';
import { writeWholeText } from '../exports/whole-text.ts';
import { type WrittenExport, shownBlocks } from './export-csv.ts';
import { type LongWork, UNWATCHED } from './long-work.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

/** What is worked out beside the archive's thread. */
export interface JudgedAndEvaluated {
  readonly evaluations: readonly KeptEvaluationDocument[];
  /** By the number of the member, see `pullDocumentPieces`. */
  readonly verdicts: ReadonlyMap<number, DocumentVerdict>;
}

/** Throws an ArchiveRefusal where the file exists, an ArchiveFault where it can't be written. */
export function exportJson(
  archive: Archive,
  pullId: number,
  to: string,
  { evaluations, verdicts }: JudgedAndEvaluated,
  work: LongWork = UNWATCHED,
): WrittenExport {
  const pull = archive.getPull(pullId);
  const now = Date.now();
  const { sha256, programVersion, said, photos } = archive.sets((connection, keeping) => ({
    sha256: rawSha256(connection, pullId),
    programVersion: keeping.programVersion,
    said: saidOfPull(connection, pullId),
    photos: photosOf(connection, pullId),
  }));
  const pieces = pullDocumentPieces({
    pull,
    evaluations,
    said,
    verdicts,
    photos,
    photoBytes: (photoId) => archive.sets((connection) => getPhoto(connection, photoId).bytes),
    imported: importedOf(archive, pull, sha256),
    blocks: shownBlocks(archive, pull, work),
    chunks: archive.rawChunks(pullId),
    rawSha256: sha256,
    programVersion,
    exportedWallMs: now,
    utcOffsetMinutes: utcOffsetMinutes(now),
  });
  return { ...writeWholeText(pieces, to), readingCount: pull.readingCount, parts: [], remark: null };
}

/** What became of the rows is not kept with the pull: the kept bytes of the file say it again. */
function importedOf(archive: Archive, pull: KeptPull, sha256: string | null): ImportRecord | null {
  if (pull.source.kind !== 'imported' || sha256 === null) return null;
  const bytes = Buffer.concat([...archive.rawChunks(pull.pullId)].map((chunk) => chunk.bytes));
  const { file: fileName, plan } = pull.source;
  const read = importReadings(bytes, plan);
  return read.ok ? { fileName, byteCount: bytes.length, sha256, plan, report: read.report } : null;
}
