/** A table of results as a file: to a temporary name, read back, renamed; never over a file that is there. */
import { resolve } from 'node:path';
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import type { ResultsForm } from '../../core/contract/exchange-requests.ts';
import { CSV_FORMS, LINE_END } from '../../core/exchange/export/csv-form.ts';
import { resultsCsvLines } from '../../core/exchange/export/results-csv.ts';
import {
  type AskedColumn,
  PAPER_COLUMNS_MAX,
  PAPER_ROWS_MAX,
  USUAL_ON_PAPER,
} from '../../core/exchange/export/asked-columns.ts';
import {
  type ResultsTable,
  type TabledPull,
  blankColumns,
  resultsTable,
} from '../../core/exchange/export/results-table.ts';
import { TABLE_COLUMNS_MAX, chosenColumns } from '../../core/exchange/export/table-columns.ts';
import { resultsWorkbook } from './results-workbook.ts';
import { FileNotWritten, writeWholeBytes } from './whole-bytes.ts';
import { refuseExisting } from './whole-text.ts';

export interface ResultsFile {
  readonly form: ResultsForm;
  readonly path: string;
}

export interface TableToWrite extends ResultsTable {
  /** Titles of columns that somebody asked for and in which nothing stands. */
  readonly blank: readonly string[];
}

/** Without columns that are asked for the usual ones. Throws an ArchiveRefusal where they are more than a table has. */
export function tableOf(
  pulls: readonly TabledPull[],
  asked: readonly AskedColumn[] | undefined,
): TableToWrite {
  const columns = chosenColumns(pulls, asked);
  if (columns.length > TABLE_COLUMNS_MAX)
    throw new ArchiveRefusal(
      'too-many-columns',
      `These pulls give ${String(columns.length)} columns, and a table has at most ${String(TABLE_COLUMNS_MAX)}; choose the columns, or narrow the search.`,
      'columns',
    );
  const table = resultsTable(pulls, columns);
  return { ...table, blank: asked === undefined ? [] : blankColumns(table) };
}

/** For paper. Throws an ArchiveRefusal where that is more than is printed. */
export function paperTableOf(
  pulls: readonly TabledPull[],
  asked: readonly AskedColumn[] | undefined,
): TableToWrite {
  if (pulls.length > PAPER_ROWS_MAX)
    throw new ArchiveRefusal(
      'search-too-wide',
      `${String(pulls.length)} pulls are found, and at most ${String(PAPER_ROWS_MAX)} are printed; narrow the search, or write a spreadsheet.`,
      'query',
    );
  const whole = tableOf(pulls, asked ?? USUAL_ON_PAPER);
  const table = asked === undefined ? { ...withoutBlank(whole), blank: [] } : whole;
  if (table.titles.length > PAPER_COLUMNS_MAX)
    throw new ArchiveRefusal(
      'too-many-columns',
      `These pulls give ${String(table.titles.length)} columns, and at most ${String(PAPER_COLUMNS_MAX)} can be read on paper; choose fewer.`,
      'columns',
    );
  return table;
}

function withoutBlank({ titles, rows, blank }: TableToWrite): ResultsTable {
  const kept = titles.map((title, at) => (blank.includes(title) ? -1 : at)).filter((at) => at >= 0);
  return {
    titles: kept.map((at) => titles[at] ?? ''),
    rows: rows.map((row) => kept.map((at) => row[at] ?? { kind: 'blank' })),
  };
}

/** Throws an ArchiveRefusal where the file is there, an ArchiveFault where it can't be written or did not arrive whole. */
export async function writeResults(
  table: TableToWrite,
  { path: to, form }: ResultsFile,
): Promise<{ path: string; rows: number; blank: string[] }> {
  // Before the table is put into its form, which takes its time.
  refuseExisting(resolve(to));
  const bytes = await bytesOf(table, form);
  try {
    const path = await writeWholeBytes({ path: to, bytes, what: 'table' });
    return { path, rows: table.rows.length, blank: [...table.blank] };
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
