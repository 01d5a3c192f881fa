/** A table of results as a file: to a temporary name, read back, renamed; never over a file that is there. */
import { resolve } from 'node:path';
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import type { ResultsForm } from '../../core/contract/exchange-requests.ts';
import { CSV_FORMS, LINE_END } from '../../core/exchange/export/csv-form.ts';
import { resultsCsvLines } from '../../core/exchange/export/results-csv.ts';
import type { ResultsTable } from '../../core/exchange/export/results-table.ts';
import { resultsWorkbook } from './results-workbook.ts';
import { FileNotWritten, writeWholeBytes } from './whole-bytes.ts';
import { refuseExisting } from './whole-text.ts';

export interface ResultsFile {
  readonly form: ResultsForm;
  readonly path: string;
}

/** Throws an ArchiveRefusal where the file is there, an ArchiveFault where it can't be written or did not arrive whole. */
export async function writeResults(
  table: ResultsTable,
  { path: to, form }: ResultsFile,
): Promise<{ path: string; rows: number }> {
  // Before the table is put into its form, which takes its time.
  refuseExisting(resolve(to));
  const bytes = await bytesOf(table, form);
  try {
    return { path: await writeWholeBytes({ path: to, bytes, what: 'table' }), rows: table.rows.length };
  } catch (error) {
    throw error instanceof FileNotWritten ? asFault(error) : error;
  }
}

function asFault({ trouble, message, detail }: FileNotWritten): ArchiveFault | ArchiveRefusal {
  if (trouble === 'exists') return new ArchiveRefusal('file-exists', message, 'to');
  const code =
    trouble === 'gone' || trouble === 'not-whole' ? 'archive-unreadable' : (`archive-${trouble}` as const);
  return new ArchiveFault(code, message, detail);
}

async function bytesOf(table: ResultsTable, form: ResultsForm): Promise<Buffer> {
  if (form === 'xlsx') return Buffer.from(await resultsWorkbook(table));
  const lines = resultsCsvLines(table, CSV_FORMS[form]);
  return Buffer.from([...lines, ''].join(LINE_END), 'utf8');
}
