/** A table of results as delimited text. */
import {
  BYTE_ORDER_MARK,
  type CsvForm,
  PLAIN_CSV,
  decimalCell,
  numberCell,
  requireReadable,
  textCell,
} from './csv-form.ts';
import { momentText } from './moment-text.ts';
import type { ResultsTable, TableCell } from './results-table.ts';

/** Lines without their ends. */
export function* resultsCsvLines(table: ResultsTable, form: CsvForm = PLAIN_CSV): Generator<string> {
  requireReadable(form);
  const titles = table.titles.map((title) => textCell(title, form)).join(form.delimiter);
  yield (form.byteOrderMark ? BYTE_ORDER_MARK : '') + titles;
  for (const row of table.rows) yield row.map((cell) => cellText(cell, form)).join(form.delimiter);
}

function cellText(cell: TableCell, form: CsvForm): string {
  switch (cell.kind) {
    case 'blank':
      return '';
    case 'text':
      return textCell(cell.text, form);
    case 'number':
      return cell.text === undefined ? numberCell(cell.value, form) : decimalCell(cell.text, form);
    case 'moment':
      return momentText(cell.wallMs, cell.utcOffsetMinutes);
  }
}
