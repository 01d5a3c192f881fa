/**
 * Rows of delimited text as a curve, by a settled plan. The file comes in pieces and is never held as one text, so
 * memory is bounded by the readings. A blank cell becomes NaN; a row that doesn't fit is counted and listed.
 */
import { CURVE_READINGS_MAX } from '../../limits.ts';
import type { Curve } from '../../curve/curve.ts';
import { engineeringFromTrue } from '../../curve/true-stress.ts';
import { ColumnReader, type MisfitReason } from './column-reader.ts';
import { counted } from '../../words/counted.ts';
import { type ImportFault, shown } from './import-fault.ts';
import type { ImportPlan, ImportQuantity } from './import-plan.ts';
import { type ImportReport, MISFITS_LISTED_MAX } from './import-report.ts';
import { IMPORT_LINE_LENGTH_MAX, LineSplitter } from './line-splitter.ts';
import { splitCells } from './split-cells.ts';

/** Largest file: twelve million rows of three hundred characters. */
export const IMPORT_FILE_BYTES_MAX = 4 * 1_073_741_824;
/** Bytes that are decoded at a time. */
const PIECE_BYTES = 1_048_576;

export type DelimitedOutcome =
  | { readonly ok: true; readonly curve: Curve; readonly report: ImportReport }
  | { readonly ok: false; readonly fault: ImportFault };

/** Reads a whole file that is in memory. */
export function readDelimited(bytes: Uint8Array, plan: ImportPlan): DelimitedOutcome {
  const reader = new DelimitedReader(plan);
  reader.push(bytes);
  return reader.end();
}

export class DelimitedReader {
  readonly #plan: ImportPlan;
  readonly #onRow: ((cells: readonly string[]) => void) | undefined;
  readonly #decoder: TextDecoder;
  readonly #splitter = new LineSplitter();
  readonly #columns: readonly ColumnReader[];
  readonly #misfits: { line: number; reason: string }[] = [];
  #fault: ImportFault | null = null;
  #byteCount = 0;
  #line = 0;
  #rows = 0;
  #blankLines = 0;
  #commentLines = 0;
  #misfitCount = 0;
  #replaced = 0;
  #otherNames: { line: number; text: string } | null = null;

  /** `onRow` gets the cells of each row that became a reading. */
  constructor(plan: ImportPlan, onRow?: (cells: readonly string[]) => void) {
    this.#plan = plan;
    this.#onRow = onRow;
    this.#decoder = new TextDecoder(plan.encoding);
    this.#columns = plan.columns.map((column) => new ColumnReader(column, plan));
  }

  /** True as soon as the file can't become a curve: the rest need not be read. */
  get failed(): boolean {
    return this.#fault !== null;
  }

  /** Takes the next bytes, in pieces of any size. */
  push(bytes: Uint8Array): void {
    for (let at = 0; at < bytes.length && this.#fault === null; at += PIECE_BYTES) {
      const piece = bytes.subarray(at, at + PIECE_BYTES);
      this.#byteCount += piece.length;
      if (this.#byteCount > IMPORT_FILE_BYTES_MAX) {
        this.#fail(
          'import-too-large',
          `The file is larger than ${String(IMPORT_FILE_BYTES_MAX / 1_073_741_824)} GiB; split it, or write it with fewer columns.`,
        );
        return;
      }
      this.#take(this.#decoder.decode(piece, { stream: true }));
    }
  }

  end(): DelimitedOutcome {
    if (this.#fault === null) {
      this.#take(this.#decoder.decode());
      if (!this.failed) for (const line of this.#splitter.end()) this.#takeLine(line);
    }
    if (!this.failed) this.#judge();
    return this.#fault === null
      ? { ok: true, curve: this.#curve(), report: this.#report() }
      : { ok: false, fault: this.#fault };
  }

  #take(text: string): void {
    if (text.includes('\ufffd')) this.#replaced++;
    for (const line of this.#splitter.push(text)) {
      this.#takeLine(line);
      if (this.#fault !== null) return;
    }
    if (this.#splitter.overlong) this.#overlong(this.#line + 1);
  }

  #takeLine(line: string): void {
    this.#line++;
    if (line.length > IMPORT_LINE_LENGTH_MAX) {
      this.#overlong(this.#line);
      return;
    }
    if (this.#line < this.#plan.firstRowLine) return;
    if (line.trim() === '') {
      this.#blankLines++;
      return;
    }
    if (line.startsWith('#')) {
      this.#commentLines++;
      return;
    }
    this.#takeRow(line);
  }

  #takeRow(line: string): void {
    const cells = splitCells(line, this.#plan.delimiter);
    if (cells.every((cell) => cell === '')) {
      this.#blankLines++;
      return;
    }
    const reason = this.#cellsMisfit(cells) ?? this.#read(cells);
    if (reason === null) {
      if (this.#rows >= CURVE_READINGS_MAX) {
        this.#fail(
          'import-too-many-readings',
          `Line ${String(this.#line)} is beyond the ${String(CURVE_READINGS_MAX)} readings that one curve may have; split the file there.`,
          this.#line,
        );
        return;
      }
      if (this.#otherNames !== null) {
        this.#secondTable(this.#otherNames);
        return;
      }
      for (const column of this.#columns) column.keep(this.#rows);
      this.#onRow?.(cells);
      this.#rows++;
      return;
    }
    if (this.#otherNames === null && this.#looksLikeNames(cells))
      this.#otherNames = { line: this.#line, text: cells.join(' ') };
    this.#misfitCount++;
    if (this.#misfits.length < MISFITS_LISTED_MAX) this.#misfits.push({ line: this.#line, reason });
  }

  /** Rows may end early or with blank cells; a cell more than the table has slips everything sideways. */
  #cellsMisfit(cells: readonly string[]): MisfitReason | null {
    const { cells: width, delimiter, columns } = this.#plan;
    if (cells.length === width) return null;
    const extra = cells.slice(width).some((cell) => cell !== '');
    if (cells.length > width && !extra) return null;
    const needed = Math.max(...columns.map((c) => c.cell));
    if (cells.length < width && cells.length > needed && delimiter !== 'blanks' && delimiter !== ',')
      return null;
    const hint = delimiter === ',' && extra ? '; a decimal comma needs semicolons between the cells' : '';
    return `${counted(cells.length, 'cell')} where the table has ${String(width)}${hint}`;
  }

  #read(cells: readonly string[]): MisfitReason | null {
    for (const column of this.#columns) {
      const reason = column.read(cells);
      if (reason !== null) return reason;
    }
    return null;
  }

  /**
   * A line of words in all used columns, other than the names: where rows follow it, another table has begun and
   * the same cell may mean something else. The same names again (files put together) are a row that doesn't fit.
   */
  #looksLikeNames(cells: readonly string[]): boolean {
    const { columns } = this.#plan;
    return (
      this.#rows > 0 &&
      columns.every((c) => /\p{L}/u.test(cells[c.cell] ?? '') && !/^[\d+\-.,]/.test(cells[c.cell] ?? '')) &&
      columns.some((c) => cells[c.cell] !== c.name)
    );
  }

  #judge(): void {
    if (this.#byteCount === 0)
      this.#fail('import-empty', 'The file is empty; give a file with a header and readings.');
    else if (this.#rows === 0) {
      const first = this.#misfits[0];
      this.#fail(
        'import-no-readings',
        first === undefined
          ? `There are no rows from line ${String(this.#plan.firstRowLine)} on; check at which line the rows begin.`
          : `None of the ${counted(this.#misfitCount, 'row')} from line ${String(this.#plan.firstRowLine)} on fits: line ${String(first.line)} has ${first.reason}; check delimiter, decimal sign, columns and units.`,
        first?.line,
      );
    } else if (this.#misfitCount > this.#rows)
      this.#fail(
        'import-most-rows-do-not-fit',
        `${String(this.#misfitCount)} rows don't fit and only ${String(this.#rows)} do; line ${String(this.#misfits[0]?.line ?? 0)} has ${this.#misfits[0]?.reason ?? ''}; check delimiter, decimal sign and columns.`,
        this.#misfits[0]?.line,
      );
  }

  #curve(): Curve {
    const column = (quantity: ImportQuantity): Float64Array | undefined =>
      this.#columns.find((c) => c.quantity === quantity)?.values(this.#rows);
    const timeS = column('time');
    const forceN = column('force');
    const extensionMm = column('extension');
    const travelMm = column('travel');
    const { stressMpa, strainRatio } = engineering({
      stress: column('stress'),
      strain: column('strain'),
      trueStress: column('true-stress'),
      trueStrain: column('true-strain'),
    });
    return {
      length: this.#rows,
      ...(timeS === undefined ? {} : { timeS }),
      ...(forceN === undefined ? {} : { forceN }),
      ...(extensionMm === undefined ? {} : { extensionMm }),
      ...(travelMm === undefined ? {} : { travelMm }),
      ...(stressMpa === undefined ? {} : { stressMpa }),
      ...(strainRatio === undefined ? {} : { strainRatio }),
    };
  }

  #report(): ImportReport {
    const notes = this.#columns.flatMap((column) => column.notes());
    if (this.#plan.columns.some((c) => c.quantity.startsWith('true-')))
      notes.push(
        'True stress and strain were converted to engineering values; that holds up to the maximum force, not in the neck.',
      );
    if (this.#replaced > 0)
      notes.push(
        `Some letters are not valid in ${this.#plan.encoding} and were replaced; numbers are not touched by that.`,
      );
    if (this.#misfitCount > 0) {
      const first = `line ${String(this.#misfits[0]?.line ?? 0)}, has ${this.#misfits[0]?.reason ?? ''}.`;
      notes.push(
        this.#misfitCount === 1
          ? `1 row did not fit and is not part of the curve; the first, ${first}`
          : `${String(this.#misfitCount)} rows did not fit and are not part of the curve; the first, ${first}`,
      );
    }
    return {
      lines: this.#line,
      rows: this.#rows,
      blankLines: this.#blankLines,
      commentLines: this.#commentLines,
      misfits: { count: this.#misfitCount, first: this.#misfits },
      absent: Object.fromEntries(
        this.#columns.filter((c) => c.absent > 0).map((c) => [c.quantity, c.absent]),
      ),
      notes,
    };
  }

  #secondTable({ line, text }: { line: number; text: string }): void {
    this.#fail(
      'import-second-header',
      `Line ${String(line)} holds words in all columns (${shown(text)}) and rows follow it: another table seems to begin there; split the file and import the parts by themselves.`,
      line,
    );
  }

  #overlong(line: number): void {
    this.#fail(
      'import-line-too-long',
      `Line ${String(line)} is longer than ${String(IMPORT_LINE_LENGTH_MAX)} characters; this is no table of readings, or it has lost its line ends.`,
      line,
    );
  }

  #fail(code: string, sentence: string, line?: number): void {
    this.#fault = { code, sentence, ...(line === undefined ? {} : { line }) };
  }
}

interface StressColumns {
  readonly stress: Float64Array | undefined;
  readonly strain: Float64Array | undefined;
  readonly trueStress: Float64Array | undefined;
  readonly trueStrain: Float64Array | undefined;
}

/** Engineering values from whichever are there. The plan has made sure that a true stress has a strain beside it. */
function engineering({ stress, strain, trueStress, trueStrain }: StressColumns): {
  stressMpa: Float64Array | undefined;
  strainRatio: Float64Array | undefined;
} {
  const logarithmic = trueStrain ?? (trueStress === undefined ? undefined : strain?.map(Math.log1p));
  if (logarithmic === undefined) return { stressMpa: stress, strainRatio: strain };
  const converted = engineeringFromTrue({ stressMpa: trueStress ?? logarithmic, strainRatio: logarithmic });
  return {
    stressMpa: trueStress === undefined ? stress : converted.stressMpa,
    strainRatio: strain ?? converted.strainRatio,
  };
}
