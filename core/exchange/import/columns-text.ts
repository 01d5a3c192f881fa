/** What a person says each column is: "time_s;force_kN;travel_mm;extension_mm", "-" or nothing to leave one out. */
import { readCsvHeader } from '../../curve/csv-header.ts';
import { counted } from '../../words/counted.ts';
import { type ImportFault, shown } from './import-fault.ts';
import type { ImportColumn, ImportQuantity } from './import-plan.ts';
import { nameColumn } from './name-column.ts';

export type ColumnsTextOutcome =
  | { readonly ok: true; readonly columns: readonly Omit<ImportColumn, 'written'>[]; readonly cells: number }
  | { readonly ok: false; readonly fault: ImportFault };

/** Longest text: CSV_COLUMNS_MAX columns that are left out, and all that a curve keeps among them. */
export const COLUMNS_TEXT_LENGTH_MAX = 4_000;

const LEFT_OUT = new Set(['', '-']);
const TRUE_PREFIX = /^true[_\s-]+/i;

/** Reads the text by the grammar of our own curve files; "true_stress_MPa" and "true_strain_1" beside it. */
export function columnsFromText(text: string): ColumnsTextOutcome {
  const fault = (code: string, sentence: string): ColumnsTextOutcome => ({
    ok: false,
    fault: { code, sentence },
  });
  if (text.length > COLUMNS_TEXT_LENGTH_MAX)
    return fault(
      'columns-text-too-long',
      `The columns are longer than ${String(COLUMNS_TEXT_LENGTH_MAX)} characters; name them like "time_s;force_kN;extension_mm".`,
    );
  const delimiter = text.includes(';') ? ';' : ',';
  const tokens = text.split(delimiter).map((token) => token.trim());
  const columns: Omit<ImportColumn, 'written'>[] = [];
  for (const [cell, token] of tokens.entries()) {
    if (LEFT_OUT.has(token)) continue;
    const isTrue = TRUE_PREFIX.test(token);
    const outcome = readCsvHeader(token.replace(TRUE_PREFIX, ''), 1);
    const column = outcome.ok ? outcome.header.columns[0] : undefined;
    const place = `Column ${String(cell + 1)} of the columns given`;
    if (column === undefined) {
      const named = inOtherWords(token);
      if (named !== null && !columns.some((other) => other.quantity === named.quantity)) {
        columns.push({ cell, name: token, ...named });
        continue;
      }
      const why =
        outcome.ok || outcome.code === 'csv-no-known-column'
          ? `${shown(token)} is no quantity with its unit`
          : reasonOf(outcome.sentence);
      return fault(
        'columns-text-unknown',
        `${place}: ${why}; name it like time_s, force_kN, extension_mm, travel_mm, stress_MPa or strain_percent, or "-" to leave it out.`,
      );
    }
    const quantity = isTrue ? trueQuantity(column.quantity) : column.quantity;
    if (quantity === null)
      return fault(
        'columns-text-unknown',
        `${place}: only stress and strain can be true values, ${shown(token)} can't.`,
      );
    if (columns.some((other) => other.quantity === quantity))
      return fault(
        'columns-text-twice',
        `${place}: ${quantity} is given twice; write "-" for the one that is not to be used.`,
      );
    columns.push({ cell, name: token, quantity, unit: column.unit });
  }
  if (columns.length === 0)
    return fault(
      'columns-text-empty',
      'The columns given leave all of them out; name at least one like "force_kN".',
    );
  return { ok: true, columns, cells: tokens.length };
}

/** Fewer columns may be named than the file has: those behind are left out, and told. More can't be. */
export function columnsFitFile(named: number, cells: number): ImportFault | null {
  if (named <= cells) return null;
  return {
    code: 'columns-text-too-many',
    sentence: `${counted(named, 'column')} are named but the rows of the file have ${counted(cells, 'cell')}; name as many as there are.`,
  };
}

/** Which columns behind those that were named are left out although they hold something; null where none is. */
export function columnsNotNamed(named: number, rows: readonly (readonly string[])[]): string | null {
  const last = Math.max(0, ...rows.map((row) => row.findLastIndex((cell) => cell !== '') + 1));
  if (last <= named) return null;
  return last === named + 1
    ? `Column ${String(last)} was not named and is left out.`
    : `Columns ${String(named + 1)} to ${String(last)} were not named and are left out.`;
}

/** What files call a quantity, where the words leave no doubt: "Kraft (kN)", "extensometer_mm". */
function inOtherWords(token: string): Pick<ImportColumn, 'quantity' | 'unit'> | null {
  const { quantity, unit, confidence } = nameColumn({ name: token, unitText: '', largest: 0 });
  return quantity === null || unit === null || confidence !== 'sure' ? null : { quantity, unit };
}

function trueQuantity(quantity: ImportQuantity): ImportQuantity | null {
  return quantity === 'stress' ? 'true-stress' : quantity === 'strain' ? 'true-strain' : null;
}

/** The sentence of the header grammar without its "Line 1" and its advice. */
function reasonOf(sentence: string): string {
  return sentence
    .replace(/^Line 1(?:: the column)?:?\s*/, '')
    .replace(/;[^;]*$/, '')
    .replace(/\.$/, '');
}

/** What a person has chosen for each column as the text that `columnsFromText` reads; null leaves a column out. */
export const columnsTextOf = (columns: readonly (Pick<ImportColumn, 'quantity' | 'unit'> | null)[]): string =>
  columns
    .map((column) => (column === null ? '-' : `${column.quantity.replace('-', ' ')} (${column.unit})`))
    .join(';');
