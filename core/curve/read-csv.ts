/**
 * A curve from CSV text, piece by piece: comma, tab, or semicolon with decimal comma; `#` lines are comments.
 * No row is dropped: a blank cell or a word such as "OL" becomes NaN and is counted, anything else that is not a
 * number is a fault with its line number. Rows of zeros at the end are data like all others.
 */
import { counted } from '../words/counted.ts';
import { CURVE_READINGS_MAX } from '../limits.ts';
import { factorToCore } from '../quantity/units.ts';
import { type CsvHeader, readCsvHeader, unquoted } from './csv-header.ts';
import { CURVE_COLUMN, type ChannelQuantity, type Curve } from './curve.ts';

export interface CsvFault {
  readonly code: string;
  /** What is wrong, in which line, what to do. */
  readonly sentence: string;
  readonly line?: number;
}

export type CsvOutcome =
  | { readonly ok: true; readonly curve: Curve; readonly notes: readonly string[] }
  | { readonly ok: false; readonly fault: CsvFault };

/** Longest line: sixty columns of twenty characters fit four times over. */
export const CSV_LINE_LENGTH_MAX = 5_000;
/** Bytes that are decoded at a time. */
const CSV_CHUNK_BYTES = 1_048_576;
const READINGS_AT_FIRST = 4_096;

const ABSENT_WORDS = new Set([
  '',
  'nan',
  'na',
  'n/a',
  '-',
  '--',
  '---',
  'ol',
  'overload',
  'null',
  'inf',
  '-inf',
]);

type ColumnKey = (typeof CURVE_COLUMN)[ChannelQuantity];

/** Reads whole bytes of a file. Never throws on bad input. */
export function readCurveCsv(bytes: Uint8Array): CsvOutcome {
  const reader = new CurveCsvReader();
  for (let at = 0; at < bytes.length && !reader.failed; at += CSV_CHUNK_BYTES)
    reader.push(bytes.subarray(at, at + CSV_CHUNK_BYTES));
  return reader.end();
}

/** Reads a file that comes in pieces, so that a long one is never held as one text. */
export class CurveCsvReader {
  readonly #decoder = new TextDecoder('utf-8');
  #carry = '';
  #lineNumber = 0;
  #bytesSeen = 0;
  #fault: CsvFault | null = null;
  #header: CsvHeader | null = null;
  #factors: number[] = [];
  #columns: Float64Array[] = [];
  #length = 0;
  #absent: number[] = [];
  #firstAbsentLine: number[] = [];

  /** True as soon as the file can't become a curve: the rest need not be read. */
  get failed(): boolean {
    return this.#fault !== null;
  }

  push(bytes: Uint8Array): void {
    if (this.#fault !== null) return;
    if (this.#bytesSeen === 0 && utf16Mark(bytes)) {
      this.#fail('csv-utf16', 'The file is UTF-16 text; save it again as UTF-8 (plain CSV).');
      return;
    }
    this.#bytesSeen += bytes.length;
    if (bytes.includes(0)) {
      this.#fail('csv-not-text', 'The file is not text (it holds zero bytes); give a CSV file in UTF-8.');
      return;
    }
    this.#take(this.#decoder.decode(bytes, { stream: true }), false);
  }

  end(): CsvOutcome {
    if (this.#fault === null) this.#take(this.#decoder.decode(), true);
    if (this.#fault === null && this.#bytesSeen === 0)
      this.#fail('csv-empty', 'The file is empty; give a CSV file with a header and readings.');
    if (this.#fault === null && this.#header === null)
      this.#fail(
        'csv-empty',
        'The file holds no header and no readings, only blank or comment lines; put a header and readings into it.',
      );
    if (this.#fault === null && this.#length === 0)
      this.#fail(
        'csv-no-readings',
        'The file has a header and no readings below it; export the readings too, one row each.',
      );
    return this.#fault === null
      ? { ok: true, curve: this.#curve(), notes: this.#notes() }
      : { ok: false, fault: this.#fault };
  }

  #take(text: string, last: boolean): void {
    const all = this.#carry + text;
    let from = 0;
    // Looked for only when passed, so that a file without CR is not searched to its end once a line.
    let cr = all.indexOf('\r');
    let lf = all.indexOf('\n');
    while (this.#fault === null) {
      if (cr !== -1 && cr < from) cr = all.indexOf('\r', from);
      if (lf !== -1 && lf < from) lf = all.indexOf('\n', from);
      const end = cr === -1 || (lf !== -1 && lf < cr) ? lf : cr;
      // A CR at the very end may be half of a CRLF that the next piece completes.
      if (end === -1 || (end === cr && cr === all.length - 1 && !last)) break;
      this.#line(all.slice(from, end));
      from = end === cr && lf === cr + 1 ? end + 2 : end + 1;
    }
    this.#carry = all.slice(from);
    if (this.#fault !== null) return;
    if (this.#carry.length > CSV_LINE_LENGTH_MAX)
      this.#failAt(
        'csv-line-too-long',
        `is longer than ${String(CSV_LINE_LENGTH_MAX)} characters; this is no curve file; give a CSV file with one reading a line.`,
        this.#lineNumber + 1,
      );
    else if (last && this.#carry !== '') {
      this.#line(this.#carry);
      this.#carry = '';
    }
  }

  #line(line: string): void {
    this.#lineNumber += 1;
    if (line.length > CSV_LINE_LENGTH_MAX) {
      this.#failAt(
        'csv-line-too-long',
        `is longer than ${String(CSV_LINE_LENGTH_MAX)} characters; this is no curve file; give a CSV file with one reading a line.`,
      );
      return;
    }
    // A line of data begins with a digit, a sign or a point; only the others can be blank or a comment.
    if (!isDecimalDigitOrPoint(line.charCodeAt(0))) {
      const trimmed = line.trim();
      if (trimmed === '' || trimmed.startsWith('#')) return;
    }
    if (this.#header === null) this.#readHeader(line);
    else this.#row(line, this.#header);
  }

  #readHeader(line: string): void {
    const outcome = readCsvHeader(line, this.#lineNumber);
    if (!outcome.ok) {
      this.#fault = { code: outcome.code, sentence: outcome.sentence, line: this.#lineNumber };
      return;
    }
    this.#header = outcome.header;
    this.#factors = outcome.header.columns.map((c) => factorToCore(c.unit));
    this.#columns = outcome.header.columns.map(() => new Float64Array(READINGS_AT_FIRST));
    this.#absent = outcome.header.columns.map(() => 0);
    this.#firstAbsentLine = outcome.header.columns.map(() => 0);
  }

  #row(line: string, header: CsvHeader): void {
    const cells = line.split(header.delimiter);
    while (cells.length > header.cells && cells.at(-1)?.trim() === '') cells.pop();
    if (cells.length !== header.cells) {
      const hint =
        header.delimiter === ',' && cells.length > header.cells
          ? 'numbers with a decimal comma need semicolons or tabs between the cells'
          : 'leave a cell blank where a value is missing';
      this.#failAt(
        'csv-cells',
        `has ${counted(cells.length, 'cell')} but the header names ${counted(header.cells, 'column')}; ${hint}.`,
      );
      return;
    }
    if (this.#length >= CURVE_READINGS_MAX) {
      this.#failAt(
        'csv-too-many-readings',
        `is beyond the ${String(CURVE_READINGS_MAX)} readings that one curve may have; cut the file into parts.`,
      );
      return;
    }
    if (this.#length === this.#columns[0]?.length) this.#columns = this.#columns.map(doubled);
    const decimalComma = header.delimiter !== ',';
    for (let i = 0; i < header.columns.length; i++) {
      const column = header.columns[i];
      if (column === undefined) continue;
      const text = cells[column.cell] ?? '';
      const value = cellNumber(text, decimalComma);
      if (value === null) {
        this.#failAt(
          'csv-not-a-number',
          `holds "${text.trim().slice(0, 30)}" in the column ${column.name}, which is not a number; correct it, or leave the cell blank where there was no reading.`,
        );
        return;
      }
      if (Number.isNaN(value)) {
        if (this.#absent[i] === 0) this.#firstAbsentLine[i] = this.#lineNumber;
        this.#absent[i] = (this.#absent[i] ?? 0) + 1;
      }
      const target = this.#columns[i];
      if (target !== undefined) target[this.#length] = value * (this.#factors[i] ?? 1);
    }
    this.#length += 1;
  }

  #curve(): Curve {
    const columns: { [K in ColumnKey]?: Float64Array } = {};
    for (const [i, column] of (this.#header?.columns ?? []).entries()) {
      const values = this.#columns[i];
      if (values !== undefined) columns[CURVE_COLUMN[column.quantity]] = values.slice(0, this.#length);
    }
    return { length: this.#length, ...columns };
  }

  #notes(): string[] {
    const header = this.#header;
    if (header === null) return [];
    const absent = header.columns.flatMap((column, i) => {
      const times = this.#absent[i] ?? 0;
      return times === 0
        ? []
        : [
            `${column.name} is missing in ${counted(times, 'row')}, first in line ${String(this.#firstAbsentLine[i] ?? 0)}; those readings are kept as gaps.`,
          ];
    });
    return [
      ...absent,
      ...(header.unused.length === 0
        ? []
        : [`Columns that are not used: ${header.unused.slice(0, 20).join(', ').slice(0, 300)}.`]),
    ];
  }

  #failAt(code: string, rest: string, line: number = this.#lineNumber): void {
    this.#fault = { code, sentence: `Line ${String(line)} ${rest}`, line };
  }

  #fail(code: string, sentence: string): void {
    this.#fault = { code, sentence };
  }
}

/** Codes of "+", "-", "." and the digits; the comma and the slash between them don't make a number anyway. */
const isDecimalDigitOrPoint = (code: number): boolean => code >= 0x2b && code <= 0x39;
const isLetter = (code: number): boolean => code >= 0x41;

const POINT_NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,4})?$/;

/** The number in a cell; NaN where the cell says that there is none; null where it is neither. */
function cellNumber(cell: string, decimalComma: boolean): number | null {
  if (isDecimalDigitOrPoint(cell.charCodeAt(0)) && !isLetter(cell.charCodeAt(1))) {
    // Nearly every cell is a plain number; the slow way is for the others. "0x10" and "Infinity" are not taken here.
    const plainly = Number(cell);
    if (Number.isFinite(plainly)) return plainly;
  }
  const text = unquoted(cell);
  if (ABSENT_WORDS.has(text) || ABSENT_WORDS.has(text.toLowerCase())) return Number.NaN;
  const plain = decimalComma && !text.includes('.') ? text.replace(',', '.') : text;
  if (!POINT_NUMBER.test(plain)) return null;
  const value = Number(plain);
  return Number.isFinite(value) ? value : null;
}

function doubled(column: Float64Array): Float64Array {
  const longer = new Float64Array(column.length * 2);
  longer.set(column);
  return longer;
}

/** FF FE or FE FF at the start of the file. */
function utf16Mark(bytes: Uint8Array): boolean {
  return (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
}
