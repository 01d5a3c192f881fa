/**
 * A calibration table as text: two columns, what the readout showed and what it should have shown, each named with its
 * unit ("shown_kN,actual_kN"). Comma, tab, or semicolon with decimal comma; # begins a comment.
 */
import { exactFromDecimal, toNumber } from '../quantity/exact.ts';
import { CORE_UNIT, type UnitSymbol, convertExact, unitFromText } from '../quantity/units.ts';
import type { CalibrationPoint } from '../results/evaluation.ts';

export type CalibratedQuantity = 'force' | 'length';

export type CalibrationOutcome =
  | {
      readonly ok: true;
      /** By the unit of the columns; a length is the extension. */
      readonly quantity: CalibratedQuantity;
      /** In N or mm, as in the file. */
      readonly points: readonly CalibrationPoint[];
    }
  | { readonly ok: false; readonly sentence: string };

const SHOWN_WORDS = ['shown', 'indicated'];
const ACTUAL_WORDS = ['actual', 'applied', 'true'];
const FORM = 'shown_kN,actual_kN';
const LINES_MAX = 10_000;

interface Column {
  readonly role: 'shown' | 'actual';
  readonly unit: UnitSymbol;
  readonly quantity: CalibratedQuantity;
  readonly cell: number;
}

/** Order and number of the points are checked with the other options (core/contract/evaluation-options.ts). */
export function readCalibration(text: string): CalibrationOutcome {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  if (lines.length > LINES_MAX)
    return fault(`This file has ${String(lines.length)} lines; a calibration table has some ten.`);
  let columns: { shown: Column; actual: Column } | null = null;
  let delimiter = ',';
  const points: CalibrationPoint[] = [];
  for (const [index, line] of lines.entries()) {
    const at = `Line ${String(index + 1)}`;
    if (line.trim() === '' || line.trimStart().startsWith('#')) continue;
    if (columns === null) {
      delimiter = line.includes('\t') ? '\t' : line.includes(';') ? ';' : ',';
      const header = headerOf(line.split(delimiter));
      if (typeof header === 'string') return fault(`${at}: ${header}`);
      columns = header;
      continue;
    }
    const cells = line.split(delimiter);
    const shown = numberOf(cells, columns.shown);
    const actual = numberOf(cells, columns.actual);
    if (shown === null || actual === null)
      return fault(`${at}: "${line.slice(0, 40)}" does not hold two numbers; correct it or remove the line.`);
    points.push({ shown, actual });
  }
  return columns === null
    ? fault(`The file holds no table; begin it with a header like "${FORM}", then a line for each point.`)
    : { ok: true, quantity: columns.shown.quantity, points };
}

const fault = (sentence: string): CalibrationOutcome => ({ ok: false, sentence });

/** The two columns, or what is wrong with the header. */
function headerOf(names: readonly string[]): { shown: Column; actual: Column } | string {
  const columns = names.map((name, cell) => columnOf(name, cell)).filter((column) => column !== null);
  const shown = columns.find(({ role }) => role === 'shown');
  const actual = columns.find(({ role }) => role === 'actual');
  if (shown === undefined || actual === undefined)
    return `the header must name two columns with their units, what the readout showed and what was actual, like "${FORM}" or "shown_mm,actual_mm".`;
  if (shown.quantity !== actual.quantity)
    return 'one column is a force and the other a length; a table corrects one of them.';
  return { shown, actual };
}

/** "shown_kN", "Shown (kN)", "applied [lbf]". */
function columnOf(name: string, cell: number): Column | null {
  const [, word = '', unitText = ''] =
    /^\s*"?([A-Za-z]+)\s*[_ ([]\s*([^)\]"\s]+)[)\]]?"?\s*$/.exec(name) ?? [];
  const role = SHOWN_WORDS.includes(word.toLowerCase())
    ? 'shown'
    : ACTUAL_WORDS.includes(word.toLowerCase())
      ? 'actual'
      : null;
  const unit = unitFromText(unitText);
  if (role === null || unit === null) return null;
  if (unit.dimension !== 'force' && unit.dimension !== 'length') return null;
  return { role, unit: unit.symbol as UnitSymbol, quantity: unit.dimension, cell };
}

function numberOf(cells: readonly string[], { cell, unit, quantity }: Column): number | null {
  const exact = exactFromDecimal((cells[cell] ?? '').trim().replace(',', '.'));
  return exact === null ? null : toNumber(convertExact(exact, unit, CORE_UNIT[quantity]));
}
