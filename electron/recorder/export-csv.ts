/** One pull as a CSV file, or as several where a spreadsheet could not hold it in one. */
import { resolve } from 'node:path';
import type { Archive } from '../../core/archive/archive.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { ReadingColumns } from '../../core/contract/reading.ts';
import { CSV_FORMS, type CsvFormName, LINE_END } from '../../core/exchange/export/csv-form.ts';
import {
  type PullCsvOptions,
  pullCsvLines,
  rowsBesideReadings,
} from '../../core/exchange/export/pull-csv.ts';
import {
  SPREADSHEET_ROWS_MAX,
  type SpreadsheetPart,
  partPath,
  splitForSpreadsheet,
} from '../../core/exchange/export/spreadsheet-rows.ts';
import { writeWholeText, writeWholeTexts } from '../exports/whole-text.ts';
import { type LongWork, UNWATCHED } from './long-work.ts';

const READINGS_AT_ONCE = 50_000;

export type WrittenExport = ReplyOf<'archive.export'>;

/**
 * The plain form stays one file, however long; of a form for spreadsheets, which stop at `rowsMax` rows without a word,
 * there are as many as it takes. Throws an ArchiveRefusal where a file exists, an ArchiveFault where one can't be
 * written; there is none of them then.
 */
export function exportCsv(
  archive: Archive,
  { pullId, to, form }: { readonly pullId: number; readonly to: string; readonly form: CsvFormName },
  rowsMax = SPREADSHEET_ROWS_MAX,
  work: LongWork = UNWATCHED,
): WrittenExport {
  const pull = archive.getPull(pullId);
  const { readingCount } = pull;
  const split = splitForSpreadsheet(readingCount, rowsBesideReadings(pull), rowsMax);
  // The time of the curve is that of the evaluation, so that an exported curve gives the same results again.
  const { curve, timeFrom } = archive.curve(pullId);
  const options = {
    form: CSV_FORMS[form],
    ...(timeFrom === 'readout' ? { readoutTimeS: curve.timeS } : {}),
  };
  if (split.length === 1 || form === 'plain')
    return {
      ...writeWholeText(linesOf(archive, pull, options, work), to),
      readingCount,
      parts: [],
      remark:
        split.length === 1
          ? null
          : `The file holds all ${String(readingCount)} readings; a spreadsheet holds ${String(rowsMax)} rows and would cut it off without a word. For one, export it in a form for spreadsheets: it is split then.`,
    };
  const parts = writeWholeTexts(
    split.map((part) => ({
      to: partPath(resolve(to), part),
      pieces: linesOf(archive, pull, { ...options, part }, work),
    })),
  );
  return {
    path: parts[0]?.path ?? to,
    bytes: parts.reduce((sum, { bytes }) => sum + bytes, 0),
    readingCount,
    parts: parts.map(({ path }) => path),
    remark: `The pull has ${String(readingCount)} readings and a spreadsheet holds ${String(rowsMax)} rows, so it is written as ${String(parts.length)} files, each with all heads.`,
  };
}

function* linesOf(
  archive: Archive,
  pull: KeptPull,
  options: PullCsvOptions,
  work: LongWork,
): Generator<string> {
  for (const line of pullCsvLines(pull, shownBlocks(archive, pull, work, options.part), options))
    yield line + LINE_END;
}

/** Readings in order, with the digits that were shown: all, or those of a part. Stopped between two blocks. */
export function* shownBlocks(
  archive: Archive,
  { pullId, readingCount }: KeptPull,
  work: LongWork,
  { firstSeq, count }: Pick<SpreadsheetPart, 'firstSeq' | 'count'> = { firstSeq: 0, count: readingCount },
): Generator<ReadingColumns> {
  const end = firstSeq + count;
  for (let fromSeq = firstSeq; fromSeq < end; fromSeq += READINGS_AT_ONCE) {
    work.step('export', fromSeq, readingCount);
    yield archive.readColumns({
      pullId,
      fromSeq,
      count: Math.min(READINGS_AT_ONCE, end - fromSeq),
      shown: true,
    }).columns;
  }
}
