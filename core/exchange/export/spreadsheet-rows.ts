/** What a spreadsheet can hold. It stops at its last row without a word, so a longer export is split and said. */

/** Rows of one sheet in the usual programs and in the .xlsx format. */
export const SPREADSHEET_ROWS_MAX = 1_048_576;

export interface SpreadsheetPart {
  /** From 1. */
  readonly number: number;
  readonly of: number;
  readonly firstSeq: number;
  readonly count: number;
}

export interface SpreadsheetSplit {
  readonly parts: readonly SpreadsheetPart[];
  /** One sentence where the readings don't fit one sheet; null where they do. */
  readonly warning: string | null;
}

/** Splits readings into parts that fit. `otherRows`: header, remarks and end of each part, with room for gaps. */
export function splitForSpreadsheet(readingCount: number, otherRows: number): SpreadsheetSplit {
  const room = SPREADSHEET_ROWS_MAX - otherRows;
  if (room < 1) throw new RangeError(`${String(otherRows)} rows of facts leave no room for readings`);
  const of = Math.max(1, Math.ceil(readingCount / room));
  const parts = Array.from({ length: of }, (_, i) => ({
    number: i + 1,
    of,
    firstSeq: i * room,
    count: Math.min(room, readingCount - i * room),
  }));
  return {
    parts,
    warning:
      of === 1
        ? null
        : `The pull has ${String(readingCount)} readings and a spreadsheet holds ${String(SPREADSHEET_ROWS_MAX)} rows; it is written as ${String(of)} files, the plain CSV stays whole.`,
  };
}
