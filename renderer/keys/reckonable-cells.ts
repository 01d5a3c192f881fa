/**
 * A table of the page as a spreadsheet can reckon with it: each number alone in its cell. On the page the unit stands
 * behind the number; copied it goes into the head of its column, or, where a column has several, into a cell of its own.
 */
import { UNITS } from '../../core/quantity/units.ts';

export interface TableCell {
  readonly text: string;
  readonly rowSpan: number;
  readonly colSpan: number;
  readonly role: 'head' | 'name' | 'value';
}

/** "32.85 kN", "5 445", "−0.35 MPa/s": sign, digits in groups of three with a decimal sign, a unit or none. */
const AMOUNT = /^([-+−]?\d[\d\u202f]*(?:[.,]\d+)?)(?: ?(\D\S*|1\/\S+))?$/u;

/**
 * Every row has as many cells as the widest: a name over several rows is repeated in each of them.
 *
 * @param unitHead over a column that has the units of the one before
 */
export function reckonableCells(table: readonly (readonly TableCell[])[], unitHead: string): string[][] {
  const rows = table.map((): TableCell[] => []);
  table.forEach((cells, r) => {
    for (const cell of cells) {
      let at = 0;
      while (rows[r]?.[at] !== undefined) at++;
      for (const [down, row] of rows.slice(r, r + cell.rowSpan).entries())
        for (let along = 0; along < cell.colSpan; along++)
          row[at + along] = along === 0 ? cell : { ...cell, role: down === 0 ? 'head' : cell.role, text: '' };
    }
  });
  const width = Math.max(0, ...rows.map((row) => row.length));
  const columns = Array.from({ length: width }, (_, at) =>
    column(
      rows.map((row) => row[at]),
      unitHead,
    ),
  );
  return rows.map((_, r) => columns.flatMap((cells) => cells[r] ?? []));
}

interface Amount {
  readonly number: string;
  readonly unit: string;
}

/** Of each row one cell, or two where numbers and units can't share a head. */
function column(cells: readonly (TableCell | undefined)[], unitHead: string): string[][] {
  const amounts = cells.map(amountOf);
  const units = new Set(amounts.flatMap((amount) => (amount === null ? [] : [amount.unit])));
  const number = (r: number): string => amounts[r]?.number ?? cells[r]?.text ?? '';
  const isHead = (r: number): boolean => r === 0 && cells[r]?.role === 'head';
  const [unit = ''] = units;
  if (units.size === 0 || (units.size === 1 && unit === '')) return cells.map((_, r) => [number(r)]);
  if (units.size === 1 && isHead(0))
    return cells.map((_, r) => [isHead(r) ? headWith(number(r), unit) : number(r)]);
  return cells.map((_, r) => [number(r), isHead(r) ? unitHead : (amounts[r]?.unit ?? '')]);
}

const headWith = (head: string, unit: string): string =>
  head.trim().endsWith(`, ${unit}`) ? head : `${head.trim()}, ${unit}`;

function amountOf(cell: TableCell | undefined): Amount | null {
  if (cell?.role !== 'value') return null;
  const [, number, unit = ''] = AMOUNT.exec(cell.text.trim()) ?? [];
  return number === undefined || !isUnitText(unit) ? null : { number, unit };
}

/** Units, and what is made of them: "MPa/mm", "1/s". */
const isUnitText = (text: string): boolean =>
  text === '' ||
  text.split(/[/·]/u).every((part) => part === '1' || Object.hasOwn(UNITS, part)) ||
  Object.hasOwn(UNITS, text);
