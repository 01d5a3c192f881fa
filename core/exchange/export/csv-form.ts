/** Forms of delimited text: one for machines and archives, and those that a spreadsheet of some language opens rightly. */
import { neutraliseText } from './neutralise-text.ts';

export interface CsvForm {
  readonly delimiter: ',' | ';' | '\t';
  readonly decimalSign: '.' | ',';
  /** Some spreadsheets take a file for UTF-8 only with it. */
  readonly byteOrderMark: boolean;
}

/** UTF-8, comma, decimal point: the original form, the same everywhere. */
export const PLAIN_CSV: CsvForm = { delimiter: ',', decimalSign: '.', byteOrderMark: false };

/** Delimiter and decimal sign are chosen together, so that they can't be the same sign. */
export const SPREADSHEET_FORMS = {
  'decimal-point-comma': { delimiter: ',', decimalSign: '.', byteOrderMark: true },
  'decimal-comma-semicolon': { delimiter: ';', decimalSign: ',', byteOrderMark: true },
  'decimal-point-tab': { delimiter: '\t', decimalSign: '.', byteOrderMark: true },
  'decimal-comma-tab': { delimiter: '\t', decimalSign: ',', byteOrderMark: true },
} as const satisfies Record<string, CsvForm>;

/** All by their names; `plain` is for machines. */
export const CSV_FORMS = { plain: PLAIN_CSV, ...SPREADSHEET_FORMS } as const satisfies Record<
  string,
  CsvForm
>;
export type CsvFormName = keyof typeof CSV_FORMS;
export const CSV_FORM_NAMES = Object.keys(CSV_FORMS) as [CsvFormName, ...CsvFormName[]];

/** Throws a RangeError for a form that no reader could take apart. */
export function requireReadable(form: CsvForm): void {
  if (form.delimiter === form.decimalSign)
    throw new RangeError('the decimal sign and the sign between cells must differ');
}

export const BYTE_ORDER_MARK = '\ufeff';
/** RFC 4180. */
export const LINE_END = '\r\n';

/** A cell of text: neutralised, and quoted where it must be. */
export function textCell(text: string, form: CsvForm): string {
  const plain = neutraliseText(text);
  const mustQuote = plain.includes(form.delimiter) || /["\r\n]/.test(plain) || /^\s|\s$/.test(plain);
  return mustQuote ? `"${plain.replaceAll('"', '""')}"` : plain;
}

/** A number: its shortest text that reads back as the same double; blank where there is none. */
export function numberCell(value: number, form: CsvForm): string {
  return Number.isFinite(value) ? decimalCell(String(value), form) : '';
}

/** A number that is text with a decimal point already, digits kept. */
export function decimalCell(text: string, form: CsvForm): string {
  return form.decimalSign === '.' ? text : text.replace('.', ',');
}

/**
 * A remark: a line that begins with "#". No part of it that a spreadsheet puts into a cell of its own can be a
 * formula, and no quote in it can open a cell that swallows the lines behind: quotes become apostrophes.
 */
export function remarkLine(text: string): string {
  // eslint-disable-next-line no-control-regex -- NUL is what is replaced.
  const oneLine = text.replace(/[\r\n\u0000]+/g, ' ').replaceAll('"', "'");
  const cells = oneLine
    .split(/([,;\t])/)
    .map((part, i) => (i > 0 && i % 2 === 0 ? neutraliseText(part) : part));
  return `# ${cells.join('')}`;
}
