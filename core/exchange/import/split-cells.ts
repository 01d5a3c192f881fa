/** The cells of one line. Quotes as in RFC 4180: around a whole cell, doubled inside. */
import type { ImportDelimiter } from './import-plan.ts';

/** Cells as text, without the quotes around them and without blanks at their ends. */
export function splitCells(line: string, delimiter: ImportDelimiter): string[] {
  if (delimiter === 'blanks') {
    const trimmed = line.trim();
    return trimmed === '' ? [''] : trimmed.split(/[ \t\u00a0]+/);
  }
  if (!line.includes('"')) return line.split(delimiter).map((cell) => cell.trim());
  return splitQuoted(line, delimiter);
}

/** A quote counts only where the cell begins with it and another one ends it: an inch sign is text. */
function splitQuoted(line: string, delimiter: string): string[] {
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    const quoted = quotedCell(line, at, delimiter);
    if (quoted !== null) {
      cells.push(quoted.text);
      if (quoted.next === -1) return cells;
      at = quoted.next;
      continue;
    }
    const end = line.indexOf(delimiter, at);
    cells.push(line.slice(at, end === -1 ? undefined : end).trim());
    if (end === -1) return cells;
    at = end + 1;
  }
}

function quotedCell(line: string, at: number, delimiter: string): { text: string; next: number } | null {
  let start = at;
  while (line[start] === ' ') start++;
  if (line[start] !== '"') return null;
  let close = start + 1;
  for (;;) {
    close = line.indexOf('"', close);
    if (close === -1) return null;
    if (line[close + 1] !== '"') break;
    close += 2;
  }
  let behind = close + 1;
  while (line[behind] === ' ') behind++;
  if (behind < line.length && line[behind] !== delimiter) return null;
  const text = line
    .slice(start + 1, close)
    .replaceAll('""', '"')
    .trim();
  return { text, next: behind < line.length ? behind + 1 : -1 };
}
