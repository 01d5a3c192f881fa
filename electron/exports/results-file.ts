/** A table of results as a file: to a temporary name, read back, renamed; never over a file that is there. */
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { ArchiveFault } from '../../core/archive/archive-fault.ts';
import { syncFile, syncFolder } from '../../core/archive/backup.ts';
import { renameWhenFree } from '../../core/archive/rename-when-free.ts';
import { discardPart, targetFaultOf } from '../../core/archive/target-fault.ts';
import type { ResultsForm } from '../../core/contract/exchange-requests.ts';
import { CSV_FORMS, LINE_END } from '../../core/exchange/export/csv-form.ts';
import { resultsCsvLines } from '../../core/exchange/export/results-csv.ts';
import type { ResultsTable } from '../../core/exchange/export/results-table.ts';
import { resultsWorkbook } from './results-workbook.ts';
import { refuseExisting } from './whole-text.ts';

export interface ResultsFile {
  readonly form: ResultsForm;
  readonly path: string;
}

/** Throws an ArchiveFault where it can't be written or did not arrive whole. */
export async function writeResults(
  table: ResultsTable,
  file: ResultsFile,
): Promise<{ path: string; rows: number }> {
  const path = resolve(file.path);
  refuseExisting(path);
  const bytes = await bytesOf(table, file.form);
  const temporary = `${path}.part-${String(process.pid)}`;
  let isBegun = false;
  try {
    writeFileSync(temporary, bytes, { flag: 'wx' });
    isBegun = true;
    syncFile(temporary);
    if (!readFileSync(temporary).equals(bytes))
      throw new ArchiveFault(
        'archive-unreadable',
        `The table did not arrive whole at ${path}, so it was not kept; try another disk. The archive is untouched.`,
      );
    renameWhenFree(temporary, path);
    syncFolder(dirname(path));
    return { path, rows: table.rows.length };
  } catch (error) {
    discardPart(temporary);
    throw targetFaultOf(error, path, 'export', isBegun);
  }
}

async function bytesOf(table: ResultsTable, form: ResultsForm): Promise<Buffer> {
  if (form === 'xlsx') return Buffer.from(await resultsWorkbook(table));
  const lines = resultsCsvLines(table, CSV_FORMS[form]);
  return Buffer.from([...lines, ''].join(LINE_END), 'utf8');
}
