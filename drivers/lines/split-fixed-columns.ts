/** Fields at fixed places of the line. */
import { LINE_BYTES_MAX } from '../../core/limits.ts';
import type { LineFormatOf } from '../../core/contract/readout-profile.ts';
import type { LineSplitter } from './line-splitter.ts';

/**
 * What stands outside the columns must be blank, and the line must reach into its last column: so a line whose
 * fields have wandered is noticed instead of being cut at the wrong places.
 */
export function splitFixedColumns(format: LineFormatOf<'fixed-columns'>): LineSplitter {
  const columns = format.columns;
  const lastEnd = Math.max(...columns.map((column) => column.start + column.length));
  const lastStart = Math.max(...columns.map((column) => column.start));
  const lengthMin = format.lineLength?.min ?? lastStart + 1;
  const lengthMax = format.lineLength?.max ?? LINE_BYTES_MAX;
  const gaps = gapsBetween(columns, lastEnd);
  return (text) => {
    const length = text.trimEnd().length;
    if (text.length < lengthMin || length > lengthMax || length > lastEnd) return null;
    for (const [start, end] of gaps) {
      for (let at = start; at < end && at < text.length; at++) if (text.charCodeAt(at) !== 32) return null;
    }
    return columns.map(({ start, length: width }) => text.slice(start, start + width));
  };
}

function gapsBetween(
  columns: readonly { readonly start: number; readonly length: number }[],
  lastEnd: number,
): [number, number][] {
  const gaps: [number, number][] = [];
  let at = 0;
  for (const { start, length } of [...columns].sort((a, b) => a.start - b.start)) {
    if (start > at) gaps.push([at, start]);
    at = start + length;
  }
  if (at < lastEnd) gaps.push([at, lastEnd]);
  return gaps;
}
