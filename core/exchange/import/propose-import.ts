/** A proposal how to read a file, made from its head: for the preview in the window, and for the command line. */
import { NAME_LENGTH_MAX } from '../../limits.ts';
import { isAbsent, plainNumberText, timeForm } from './cell-number.ts';
import { type ColumnProposal, NO_LOAD, isLoad, settleColumns } from './settle-columns.ts';
import { type DateInFile, datesInHead } from './dates-in-head.ts';
import { columnsFitFile, columnsFromText, columnsNotNamed } from './columns-text.ts';
import { type FoundTable, type TableChoices, findTable } from './find-table.ts';
import { headLines } from './head-lines.ts';
import { type ImportFault, shown } from './import-fault.ts';
import {
  type ImportColumn,
  type ImportPlan,
  IMPORT_PLAN_SCHEMA,
  type TextEncoding,
  type TimeForm,
  importPlan,
} from './import-plan.ts';
import { nameColumn } from './name-column.ts';
import { recogniseEncoding } from './recognise-encoding.ts';
import { unitBehindNumber } from './unit-behind-number.ts';

export interface ImportChoices extends TableChoices {
  readonly encoding?: TextEncoding | undefined;
  /** "time_s;force_kN;-;extension_mm"; takes the place of everything that the names say. */
  readonly columnsText?: string | undefined;
}

export interface ImportProposal {
  /** Null where a person has to say what the columns are first. */
  readonly plan: ImportPlan | null;
  /** Every column of the file, in order. */
  readonly columns: readonly ColumnProposal[];
  /** Nothing rests on a guess: the plan can be carried out without asking. */
  readonly readyWithoutAsking: boolean;
  /** What a person has to decide, each a sentence. */
  readonly questions: readonly string[];
  /** What was found and why: encoding, delimiter, decimal sign, lines of names and units. */
  readonly evidence: readonly string[];
  /** What a person should look at, or has left out without saying so, each a sentence: told also once it is imported. */
  readonly notes: readonly string[];
  /** Lines above the names, where files keep the specimen's data. */
  readonly preamble: readonly { readonly line: number; readonly text: string }[];
  /** Cells of the first rows. */
  readonly sample: readonly (readonly string[])[];
  /** Dates above the rows and in the first of them, one of which may be the day of the pull. */
  readonly dates: readonly DateInFile[];
}

export type ProposalOutcome =
  | { readonly ok: true; readonly proposal: ImportProposal }
  | { readonly ok: false; readonly fault: ImportFault };

export const SAMPLE_ROWS_MAX = 20;
export const PREAMBLE_LINES_MAX = 60;
const PREAMBLE_LENGTH_MAX = 300;

/** `complete` when `head` is the whole file; otherwise give the first IMPORT_HEAD_BYTES. Never throws on bad input. */
export function proposeImport(
  head: Uint8Array,
  complete: boolean,
  choices: ImportChoices = {},
): ProposalOutcome {
  const recognised = recogniseEncoding(head);
  if (!recognised.ok && (choices.encoding === undefined || recognised.fault.code === 'import-empty'))
    return recognised;
  const encoding = choices.encoding ?? (recognised.ok ? recognised.encoding : 'utf-8');
  const lines = headLines(head, encoding, complete);
  if (!lines.ok) return lines;
  const markup = markupFault(lines.lines);
  if (markup !== null) return { ok: false, fault: markup };
  const given = choices.columnsText === undefined ? null : columnsFromText(choices.columnsText);
  if (given !== null && !given.ok) return given;
  const found = findTable(lines.lines, given === null ? choices : { ...choices, cells: given.cells });
  if (!found.ok) return found;
  const { table } = found;
  const misfit = given === null ? null : columnsFitFile(given.cells, table.cells);
  if (misfit !== null) return { ok: false, fault: misfit };
  const notNamed = given === null ? null : columnsNotNamed(given.cells, table.rows);
  const named =
    given === null
      ? settleColumns(namedColumns(table))
      : { columns: givenColumns(table, given.columns), questions: [], ready: true };
  const settled = {
    ...named,
    questions: [...named.questions, ...table.questions],
    ready: named.ready && table.questions.length === 0,
  };
  return {
    ok: true,
    proposal: {
      ...planOf(table, encoding, settled),
      columns: settled.columns,
      evidence: [encodingWords(choices, recognised.ok ? recognised.evidence : ''), ...table.evidence],
      notes: [...(notNamed === null ? [] : [notNamed]), ...table.notes],
      preamble: preambleOf(lines.lines, table),
      dates: datesOf(lines.lines, table, settled.columns),
      sample: table.rows.slice(0, SAMPLE_ROWS_MAX),
    },
  };
}

interface Settled {
  readonly columns: readonly ColumnProposal[];
  readonly questions: readonly string[];
  readonly ready: boolean;
}

function planOf(
  table: FoundTable,
  encoding: TextEncoding,
  { columns, questions, ready }: Settled,
): Pick<ImportProposal, 'plan' | 'questions' | 'readyWithoutAsking'> {
  const used = columns.flatMap((column, cell): ImportColumn[] =>
    column.used && column.quantity !== null && column.unit !== null
      ? [{ cell, name: column.name, quantity: column.quantity, unit: column.unit, written: column.written }]
      : [],
  );
  if (!used.some((column) => isLoad(column.quantity)))
    return { plan: null, questions: questions.length > 0 ? questions : [NO_LOAD], readyWithoutAsking: false };
  const checked = importPlan.safeParse({
    schema: IMPORT_PLAN_SCHEMA,
    encoding,
    delimiter: table.delimiter,
    decimalSign: table.decimalSign,
    ...(table.groupSign === undefined ? {} : { groupSign: table.groupSign }),
    firstRowLine: table.firstRowLine,
    cells: table.cells,
    columns: used,
  });
  if (checked.success) return { plan: checked.data, questions, readyWithoutAsking: ready };
  const why = checked.error.issues.map((issue) => `The columns don't go together: ${issue.message}.`);
  return { plan: null, questions: [...questions, ...why], readyWithoutAsking: false };
}

function namedColumns(table: FoundTable): Omit<ColumnProposal, 'used'>[] {
  return table.names.map((name, cell) => {
    const values = table.rows.map((row) => row[cell] ?? '').filter((text) => !isAbsent(text));
    const written = writtenOf(values, table);
    const unitText = table.units[cell] === '' ? unitInCells(values, table) : (table.units[cell] ?? '');
    const named = nameColumn({ name, unitText, largest: largestOf(values, table) });
    const isTime = named.quantity === 'time' || (written !== 'decimal' && named.quantity === null);
    if (isTime && written !== 'decimal')
      return {
        name: nameOf(name),
        quantity: 'time',
        unit: 's',
        confidence: 'likely',
        evidence: written === 'clock' ? 'written as a clock' : 'written as date and time',
        written,
      };
    return { name: nameOf(name), ...named, written: 'decimal' };
  });
}

function givenColumns(table: FoundTable, given: readonly Omit<ImportColumn, 'written'>[]): ColumnProposal[] {
  return table.names.map((name, cell) => {
    const column = given.find((c) => c.cell === cell);
    if (column === undefined)
      return {
        name: nameOf(name),
        quantity: null,
        unit: null,
        confidence: 'none',
        evidence: 'left out',
        written: 'decimal',
        used: false,
      };
    const values = table.rows.map((row) => row[cell] ?? '').filter((text) => !isAbsent(text));
    return {
      name: name === '' ? column.name : nameOf(name),
      quantity: column.quantity,
      unit: column.unit,
      confidence: 'sure',
      evidence: 'as given',
      written: column.quantity === 'time' ? writtenOf(values, table) : 'decimal',
      used: true,
    };
  });
}

const nameOf = (name: string): string => name.slice(0, NAME_LENGTH_MAX);

function writtenOf(values: readonly string[], table: FoundTable): TimeForm {
  const forms = values.slice(0, SAMPLE_ROWS_MAX).map((text) => timeForm(text, table));
  return (
    (['clock', 'date-time'] as const).find((form) => forms.length > 0 && forms.every((f) => f === form)) ??
    'decimal'
  );
}

/** The unit that more than half of the cells carry behind their numbers. */
function unitInCells(values: readonly string[], table: FoundTable): string {
  const units = values.map((text) => unitBehindNumber(text, table)?.unit ?? '');
  const first = units.find((unit) => unit !== '') ?? '';
  return units.filter((unit) => unit === first).length > units.length / 2 ? first : '';
}

function largestOf(values: readonly string[], table: FoundTable): number {
  let largest = 0;
  for (const text of values) {
    const plain = plainNumberText(text, table);
    if (plain !== null) largest = Math.max(largest, Math.abs(Number(plain)));
  }
  return largest;
}

function encodingWords(choices: ImportChoices, evidence: string): string {
  return choices.encoding === undefined ? evidence : `${choices.encoding} as chosen`;
}

function preambleOf(lines: readonly string[], table: FoundTable): { line: number; text: string }[] {
  const end = Math.min(table.namesLine ?? Infinity, table.firstRowLine);
  return lines
    .slice(0, end - 1)
    .flatMap((text, i) =>
      text.trim() === '' ? [] : [{ line: i + 1, text: text.slice(0, PREAMBLE_LENGTH_MAX) }],
    )
    .slice(0, PREAMBLE_LINES_MAX);
}

/** Of a row only what is written as date and time: numbers of readings are none. */
function datesOf(
  lines: readonly string[],
  table: FoundTable,
  columns: readonly ColumnProposal[],
): DateInFile[] {
  const first = table.rows[0] ?? [];
  const text = first.filter((_, cell) => columns[cell]?.written === 'date-time').join(' ');
  return datesInHead([...preambleOf(lines, table), { line: table.firstRowLine, text }]);
}

/** Web pages, XML and JSON are text, but no table of cells. */
function markupFault(lines: readonly string[]): ImportFault | null {
  const at = lines.findIndex((line) => line.trim() !== '');
  const first = (lines[at] ?? '').trim();
  if (!/^(?:<\?xml|<!doctype|<html|<table|<workbook|\{|\[\s*[[{])/i.test(first)) return null;
  return {
    code: 'import-not-delimited',
    sentence: `Line ${String(at + 1)} begins with ${shown(first, 20)}: this is markup or JSON, not delimited text; export the readings as a table (CSV, UTF-8).`,
    line: at + 1,
  };
}
