/**
 * Ctrl+C where a table has the focus and nothing is marked: the whole of it as lines with tabs between, as spreadsheets
 * take it. What is marked with the mouse is copied as it is anywhere.
 */
import { neutraliseText } from '../../core/exchange/export/neutralise-text.ts';
import { say } from '../design/said.tsx';
import { words } from '../words/words.ts';
import { type TableCell, reckonableCells } from './reckonable-cells.ts';

/** One line a row; what would break rows or cells apart becomes a blank. */
export function tabbed(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => cells.map(asCell).join('\t')).join('\n');
}

/** A number, with its unit or without: the only thing that may begin with a sign. */
const NUMBER = /^[-+−]?\d[\d.,\u202f ]*(?: ?[\p{L}%°µ·²³/]+)?$/u;

/**
 * What somebody wrote must not be worked out as a formula where it is put in. Groups of three and the long minus are for
 * eyes: a spreadsheet would take a number with them for text.
 */
function asCell(text: string): string {
  const cell = text.replace(/[^\S\u202f]+/gu, ' ').trim();
  return NUMBER.test(cell)
    ? cell
        .replace(/(?<=\d)\u202f(?=\d)/gu, '')
        .replaceAll('\u202f', ' ')
        .replace(/^−/u, '-')
    : neutraliseText(cell.replaceAll('\u202f', ' '));
}

/** Asked of what has the focus first: a table that puts its rows on the clipboard itself prevents the default. */
export const COPY_ROWS = 'copy-rows';

/** Takes the key from now on. Returns what stops it. */
export function copyRows(): () => void {
  const copy = (event: ClipboardEvent): void => {
    const active = document.activeElement;
    if (!(active instanceof HTMLElement) || isEntry(active)) return;
    if (document.getSelection()?.isCollapsed === false) return;
    if (!active.dispatchEvent(new Event(COPY_ROWS, { bubbles: true, cancelable: true }))) {
      event.preventDefault();
      return;
    }
    const rows = rowsAt(active);
    if (rows.length === 0 || event.clipboardData === null) return;
    event.clipboardData.setData('text/plain', tabbed(rows));
    event.preventDefault();
    say(words.value.copy.copied(String(rows.length)));
  };
  document.addEventListener('copy', copy);
  return () => document.removeEventListener('copy', copy);
}

const isEntry = (element: HTMLElement): boolean => element.matches('input, textarea, select');

/** Of the table that has the focus in it, lies under what has it, or folds out of it; else of the list of results. */
function rowsAt(active: HTMLElement): string[][] {
  const list = active.closest<HTMLElement>('[data-copies="rows"]');
  const table =
    active.closest('table') ??
    (active.matches('main, body') ? null : active.querySelector('table')) ??
    active.closest('summary')?.parentElement?.querySelector('table');
  if (table instanceof HTMLTableElement)
    return reckonableCells(
      [...table.rows].map((row) => [...row.cells].map(tableCell)),
      words.value.copy.unit,
    );
  const rows = [...(list?.querySelectorAll<HTMLElement>('[data-row]') ?? [])].map(
    (row) => row.dataset['row'],
  );
  const head = rows.length === 0 ? undefined : list?.dataset['head'];
  return [head, ...rows].flatMap((row) => (row === undefined ? [] : [row.split('\t')]));
}

/** What is pressed is named by what somebody wrote, even where it looks like a number. */
const tableCell = (cell: HTMLTableCellElement): TableCell => ({
  // What is typed into a cell is what stands in it.
  text: cell.querySelector<HTMLInputElement>('input[type="text"]')?.value ?? cell.innerText,
  rowSpan: cell.rowSpan,
  colSpan: cell.colSpan,
  role:
    cell.closest('thead') !== null
      ? 'head'
      : cell.tagName === 'TH' || cell.querySelector('button') !== null
        ? 'name'
        : 'value',
});
