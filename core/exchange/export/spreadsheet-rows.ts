/** What a spreadsheet can hold. It stops at its last row without a word, so a longer export is split, and said to be. */

/** Rows of one sheet in the usual programs and in the .xlsx format. */
export const SPREADSHEET_ROWS_MAX = 1_048_576;

export interface SpreadsheetPart {
  /** From 1. */
  readonly number: number;
  readonly of: number;
  readonly firstSeq: number;
  readonly count: number;
}

/**
 * Splits readings into parts that fit, one where all do. `otherRows`: header, remarks and end of each part, with room
 * for gaps. Throws a RangeError where they leave no room.
 */
export function splitForSpreadsheet(
  readingCount: number,
  otherRows: number,
  rowsMax = SPREADSHEET_ROWS_MAX,
): SpreadsheetPart[] {
  const room = rowsMax - otherRows;
  if (room < 1) throw new RangeError(`${String(otherRows)} rows of facts leave no room for readings`);
  const of = Math.max(1, Math.ceil(readingCount / room));
  return Array.from({ length: of }, (_, i) => ({
    number: i + 1,
    of,
    firstSeq: i * room,
    count: Math.min(room, readingCount - i * room),
  }));
}

/** "curve.csv" → "curve-part-2-of-3.csv". */
export function partPath(path: string, { number, of }: Pick<SpreadsheetPart, 'number' | 'of'>): string {
  const [end = ''] = /\.[^./\\]*$/.exec(path) ?? [];
  return `${path.slice(0, path.length - end.length)}-part-${String(number)}-of-${String(of)}${end}`;
}
