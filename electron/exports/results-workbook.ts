/** A table of results as a spreadsheet workbook (.xlsx), through the library write-excel-file. */
import type { SheetData } from 'write-excel-file/node';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { neutraliseText } from '../../core/exchange/export/neutralise-text.ts';
import type { ResultsTable, TableCell } from '../../core/exchange/export/results-table.ts';
import { SPREADSHEET_ROWS_MAX } from '../../core/exchange/export/spreadsheet-rows.ts';

/** Rows of results that fit beside the titles. */
export const WORKBOOK_RESULTS_MAX = SPREADSHEET_ROWS_MAX - 1;

/** The bytes of the workbook. Throws a RangeError where the table has more rows than a sheet holds. */
export async function resultsWorkbook(table: ResultsTable): Promise<Uint8Array> {
  if (table.rows.length > WORKBOOK_RESULTS_MAX)
    throw new RangeError(
      `${String(table.rows.length)} results, a sheet holds ${String(WORKBOOK_RESULTS_MAX)}; narrow the search or export CSV`,
    );
  const titles = table.titles.map((title) => ({ value: neutraliseText(title), fontWeight: 'bold' as const }));
  const data: SheetData = [titles, ...table.rows.map((row) => row.map(cellOf))];
  // Read when the first workbook is written: its compression makes its tables as it is read.
  const { default: writeWorkbook } = await import('write-excel-file/node');
  return writeWorkbook(data, { sheet: 'Results', stickyRowsCount: 1 }).toBuffer();
}

function cellOf(cell: TableCell): SheetData[number][number] {
  switch (cell.kind) {
    case 'blank':
      return null;
    case 'text':
      // A cell of text is no formula in a workbook, but it becomes one when the sheet is saved as CSV.
      return { type: String, value: neutraliseText(cell.text) };
    case 'number':
      return { type: Number, value: cell.value, ...formatOf(cell.text) };
    case 'moment':
      // ISO 8601 with its offset: a workbook's own dates have no time zone.
      return { type: String, value: momentText(cell.wallMs, cell.utcOffsetMinutes) };
  }
}

/** As many places as the rounding rule left: 28.0 is shown as 28.0. */
function formatOf(text: string | undefined): { format?: string } {
  const places = text?.split('.')[1]?.length ?? 0;
  return places === 0 ? {} : { format: `0.${'0'.repeat(places)}` };
}
