/** One pull as a CSV file. */
import type { Archive } from '../../core/archive/archive.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { ReadingColumns } from '../../core/contract/reading.ts';
import { LINE_END } from '../../core/exchange/export/csv-form.ts';
import { pullCsvLines } from '../../core/exchange/export/pull-csv.ts';
import { type WrittenText, writeWholeText } from '../exports/whole-text.ts';

const READINGS_AT_ONCE = 50_000;

export interface WrittenExport extends WrittenText {
  readonly readingCount: number;
}

/** Throws an ArchiveRefusal where the file exists, an ArchiveFault where it can't be written. */
export function exportCsv(archive: Archive, pullId: number, to: string): WrittenExport {
  const pull = archive.getPull(pullId);
  return { ...writeWholeText(linesOf(archive, pull), to), readingCount: pull.readingCount };
}

/** The time of the curve is that of the evaluation, so that an exported curve gives the same results again. */
function* linesOf(archive: Archive, pull: KeptPull): Generator<string> {
  const { curve, timeFrom } = archive.curve(pull.pullId);
  const readoutTimeS = timeFrom === 'readout' ? curve.timeS : undefined;
  const blocks = shownBlocks(archive, pull);
  for (const line of pullCsvLines(pull, blocks, readoutTimeS === undefined ? {} : { readoutTimeS }))
    yield line + LINE_END;
}

/** All readings in order, with the digits that were shown. */
export function* shownBlocks(
  archive: Archive,
  { pullId, readingCount }: KeptPull,
): Generator<ReadingColumns> {
  for (let fromSeq = 0; fromSeq < readingCount; fromSeq += READINGS_AT_ONCE)
    yield archive.readColumns({ pullId, fromSeq, count: READINGS_AT_ONCE, shown: true }).columns;
}
