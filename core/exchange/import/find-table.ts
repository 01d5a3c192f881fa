/** Where the table lies in the head of a file: delimiter, decimal sign, names, units, first row. */
import { CSV_COLUMNS_MAX } from '../../curve/csv-header.ts';
import { unitFromText } from '../../quantity/units.ts';
import { type NumberStyle, isAbsent, timeForm } from './cell-number.ts';
import { decimalEvidence, settleDecimalSign } from './decimal-evidence.ts';
import { counted } from '../../words/counted.ts';
import type { ImportFault } from './import-fault.ts';
import { type GroupSign, IMPORT_DELIMITERS, type ImportDelimiter } from './import-plan.ts';
import { nameColumn } from './name-column.ts';
import { splitCells } from './split-cells.ts';
import { unitBehindNumber } from './unit-behind-number.ts';

/** What a person has settled already; everything else is found. */
export interface TableChoices {
  readonly delimiter?: ImportDelimiter | undefined;
  readonly decimalSign?: '.' | ',' | undefined;
  readonly groupSign?: GroupSign | undefined;
  readonly firstRowLine?: number | undefined;
  /** Columns that a person has named; tells layouts apart that would fit alike. */
  readonly cells?: number | undefined;
}

export interface FoundTable {
  readonly delimiter: ImportDelimiter;
  readonly decimalSign: '.' | ',';
  readonly groupSign?: GroupSign;
  /** Lines count from 1. */
  readonly firstRowLine: number;
  readonly namesLine: number | null;
  readonly unitsLine: number | null;
  /** Of each column; empty texts where there is no line of names. */
  readonly names: readonly string[];
  readonly units: readonly string[];
  readonly cells: number;
  /** Cells of the rows in the head. */
  readonly rows: readonly (readonly string[])[];
  readonly evidence: readonly string[];
  /** What a person should look at although nothing is asked, each a sentence. */
  readonly notes: readonly string[];
  /** What a person has to decide about the rows, each a sentence. */
  readonly questions: readonly string[];
}

export type TableOutcome =
  | { readonly ok: true; readonly table: FoundTable }
  | { readonly ok: false; readonly fault: ImportFault };

interface Run {
  readonly delimiter: ImportDelimiter;
  readonly style: NumberStyle;
  readonly decimalWords: string;
  readonly unclear: ImportFault | null;
  /** Index of its first line in the head. */
  readonly from: number;
  readonly rows: number;
  readonly cells: number;
  /** Numbers minus twice the words, per row. */
  readonly richness: number;
  readonly header: Header;
  /** How rows below the names have more cells than names, or different numbers of them; null where they don't. */
  readonly ragged: string | null;
  /** As many cells as a person has named, or none named. */
  readonly expected: boolean;
  /** Rows of the same shape above the names, which the run leaves out. */
  readonly above: { readonly from: number; readonly rows: number } | null;
}

interface Header {
  readonly namesAt: number | null;
  readonly unitsAt: number | null;
  readonly names: readonly string[];
  readonly units: readonly string[];
  /** Cells that the line above the rows has where it can't be the rows' names. */
  readonly misfit: number | null;
}

/** Finds the table in the lines of the head. Never throws on bad input. */
export function findTable(lines: readonly string[], choices: TableChoices = {}): TableOutcome {
  const fault = (code: string, sentence: string, line?: number): TableOutcome => ({
    ok: false,
    fault: { code, sentence, ...(line === undefined ? {} : { line }) },
  });
  if (lines.every((line) => line.trim() === ''))
    return fault('import-empty', 'The file holds only blank lines; give a file with a header and readings.');
  const runs = IMPORT_DELIMITERS.filter((d) => choices.delimiter === undefined || choices.delimiter === d)
    .map((delimiter) => bestRun(lines, delimiter, choices))
    .filter((run) => run !== null);
  const best = runs.sort((a, b) => rank(b) - rank(a))[0];
  if (best === undefined)
    return fault(
      'import-no-numbers',
      `No line of the ${lines.length === 1 ? 'file' : `first ${String(lines.length)}`} holds a row of numbers; give a table of readings, or say where its rows begin.`,
    );
  const firstRowLine = best.from + 1;
  if (best.cells > CSV_COLUMNS_MAX)
    return fault(
      'import-columns-too-many',
      `Line ${String(firstRowLine)} has ${String(best.cells)} columns, and at most ${String(CSV_COLUMNS_MAX)} are read; write the file with the columns of the test only.`,
      firstRowLine,
    );
  if (best.delimiter === ',') {
    const twofold = twofoldCommas(best);
    if (twofold !== null)
      return fault(
        'import-comma-and-comma',
        `From line ${String(firstRowLine)} on, commas stand between the cells and seem to be the decimal sign as well (${twofold}); write the file with semicolons or tabs between the cells, or with quotes around the numbers.`,
        firstRowLine,
      );
    const named = fewerNamedThanCells(lines, best, choices);
    if (named !== null)
      return fault(
        'import-comma-and-comma',
        `From line ${String(firstRowLine)} on, commas stand between the cells and may be the decimal sign as well (${counted(best.cells, 'cell')}, no decimal point, and ${counted(named, 'column')} named); write the file with semicolons or tabs between the cells, or, where no comma is a decimal sign, name every column, "-" for one to leave out.`,
        firstRowLine,
      );
  }
  if (best.unclear !== null) return { ok: false, fault: { ...best.unclear, line: firstRowLine } };
  return { ok: true, table: tableOf(lines, best, choices) };
}

/** What tells that commas stand both between the cells and inside the numbers; null where nothing does. */
function twofoldCommas({ ragged, header: { misfit }, cells }: Run): string | null {
  if (ragged !== null) return ragged;
  return misfit === null ? null : `${counted(cells, 'cell')} under ${counted(misfit, 'name')}`;
}

/**
 * How many columns a person has named, where the rows have more cells and nothing tells that a comma isn't the decimal
 * sign; null otherwise.
 */
function fewerNamedThanCells(lines: readonly string[], run: Run, choices: TableChoices): number | null {
  const { cells: named } = choices;
  return named !== undefined && named < run.cells && commasMayBeDecimal(lines, run) ? named : null;
}

/** Commas between cells without names above them, of which none shows a decimal point. */
function commasMayBeDecimal(lines: readonly string[], run: Run): boolean {
  if (run.delimiter !== ',' || run.header.namesAt !== null) return false;
  const rows = lines
    .slice(run.from)
    .map((line) => splitCells(line, run.delimiter))
    .filter(({ length }) => length === run.cells);
  return decimalEvidence(rows.flat()).point === 0;
}

/** Fewer are figures of a specimen or of a calibration, which stand above many tables. */
const ROWS_ABOVE_ASKED_MIN = 3;

/** Whoever has named the columns means all rows of that shape; else the names in the middle leave a question. */
function rowsAbove(
  { above, from, header }: Run,
  choices: TableChoices,
): { readonly from: number; readonly questions: readonly string[] } {
  if (above === null) return { from, questions: [] };
  const { firstRowLine } = choices;
  if (firstRowLine !== undefined) {
    const isAmongThem = firstRowLine <= (header.namesAt ?? 0);
    return { from: isAmongThem ? Math.max(above.from, firstRowLine - 1) : from, questions: [] };
  }
  if (above.rows < ROWS_ABOVE_ASKED_MIN) return { from, questions: [] };
  if (choices.cells !== undefined) return { from: above.from, questions: [] };
  return {
    from,
    questions: [
      `Do the rows begin in line ${String(above.from + 1)} or in line ${String(from + 1)}? (${counted(above.rows, 'row')} of numbers stand above the names in line ${String((header.namesAt ?? from) + 1)})`,
    ],
  };
}

const COMMAS_MAY_BE_DECIMAL =
  'The commas stand between cells here; where they are decimal signs too, write the file with semicolons or tabs between the cells: no number shows a decimal point, and no line names the columns.';

function tableOf(lines: readonly string[], run: Run, choices: TableChoices): FoundTable {
  const { header, style } = run;
  const { from, questions } = rowsAbove(run, choices);
  const evidence = [
    `cells kept apart by ${DELIMITER_WORDS[run.delimiter]}: ${counted(run.rows, 'row')} of ${counted(run.cells, 'cell')} in the first ${counted(lines.length, 'line')}`,
    run.decimalWords,
    header.namesAt === null
      ? 'no line of names above the rows'
      : `names of the columns in line ${String(header.namesAt + 1)}`,
    ...(header.unitsAt === null ? [] : [`units in line ${String(header.unitsAt + 1)}`]),
  ];
  return {
    delimiter: run.delimiter,
    decimalSign: style.decimalSign,
    ...(style.groupSign === undefined ? {} : { groupSign: style.groupSign }),
    firstRowLine: from + 1,
    namesLine: header.namesAt === null ? null : header.namesAt + 1,
    unitsLine: header.unitsAt === null ? null : header.unitsAt + 1,
    names: header.names,
    units: header.units,
    cells: run.cells,
    rows: lines
      .slice(from)
      .filter((line) => line.trim() !== '')
      .map((line) => splitCells(line, run.delimiter)),
    evidence,
    notes: run.cells > 1 && commasMayBeDecimal(lines, run) ? [COMMAS_MAY_BE_DECIMAL] : [],
    questions,
  };
}

/** Long runs of many numbers under names that fit come first; blanks as delimiter only where nothing else fits. */
function rank(run: Omit<Run, 'decimalWords' | 'unclear'>): number {
  const expected = run.expected ? 1 : 0.2;
  const fits = run.header.misfit === null && run.ragged === null ? 1 : 0.3;
  const named = run.header.namesAt === null ? 1 : 1.5;
  const plain = run.delimiter === 'blanks' ? 0.5 : 1;
  return run.rows * Math.max(run.richness, 0.1) * fits * named * plain * expected;
}

function bestRun(lines: readonly string[], delimiter: ImportDelimiter, choices: TableChoices): Run | null {
  const split = lines.map((line) => splitCells(line, delimiter));
  const found = settleDecimalSign(decimalEvidence(split.filter(isMostlyNumbers).flat()));
  const tried: { style: NumberStyle; words: string; unclear: ImportFault | null }[] =
    choices.decimalSign !== undefined
      ? [
          {
            style: { decimalSign: choices.decimalSign, groupSign: choices.groupSign },
            words: `decimal sign "${choices.decimalSign}" as chosen`,
            unclear: null,
          },
        ]
      : found.kind === 'clear'
        ? [
            {
              style: { decimalSign: found.decimalSign, groupSign: found.groupSign },
              words: found.evidence,
              unclear: null,
            },
          ]
        : (['.', ','] as const).map((decimalSign) => ({
            style: { decimalSign },
            words: '',
            unclear: { code: found.code, sentence: found.sentence },
          }));
  return (
    tried
      .map(({ style, words, unclear }) => {
        const run = longestRun(split, delimiter, style, choices);
        return run === null ? null : { ...run, decimalWords: words, unclear: unclear };
      })
      .filter((run) => run !== null)
      .sort((a, b) => rank(b) - rank(a))[0] ?? null
  );
}

/** Lines of the preamble may be written in another language than the rows: they are no evidence. */
function isMostlyNumbers(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '');
  return filled.filter((cell) => /^[+\-−]?[\d.,'\s]*\d/.test(cell)).length > filled.length / 2;
}

interface OpenRun {
  readonly from: number;
  readonly cells: number;
  rows: number;
  numbers: number;
  words: number;
}

/** The run of rows with equal numbers of cells that ranks highest. */
function longestRun(
  split: readonly (readonly string[])[],
  delimiter: ImportDelimiter,
  style: NumberStyle,
  choices: TableChoices,
): Omit<Run, 'decimalWords' | 'unclear'> | null {
  const kinds = split.map((cells) => rowKind(cells, style));
  const runs: OpenRun[] = [];
  let open: OpenRun | null = null;
  for (const [i, kind] of kinds.entries()) {
    if (choices.firstRowLine !== undefined && i + 1 < choices.firstRowLine) continue;
    if (kind === 'blank') continue;
    if (kind === 'words') {
      open = null;
      continue;
    }
    const cells = split[i]?.length ?? 0;
    if (open === null || open.cells !== cells) {
      open = { from: i, cells, rows: 0, numbers: 0, words: 0 };
      runs.push(open);
    }
    open.rows++;
    open.numbers += kind.numbers;
    open.words += kind.words;
  }
  return (
    runs
      .map(({ from, cells, rows, numbers, words }) => {
        const header = headerAbove(split, kinds, from, cells);
        const last = header.unitsAt ?? header.namesAt;
        // Files that were put together have their names again and again: the table begins under the first ones.
        const first = header.namesAt === null ? null : firstAlike(split, header.namesAt);
        const isAgain = first !== null && first !== header.namesAt && choices.firstRowLine === undefined;
        const units = (header.unitsAt ?? 0) - (header.namesAt ?? 0);
        return {
          delimiter,
          style,
          // Rows that don't fit may stand between the names and the run: they belong to the table and are counted.
          from:
            last === null || choices.firstRowLine !== undefined
              ? from
              : nextFilled(kinds, (isAgain ? first + Math.max(0, units) : last) + 1),
          above:
            header.namesAt === null || isAgain ? null : sameShapeAbove(split, kinds, header.namesAt, cells),
          rows,
          cells,
          richness: (numbers - 2 * words) / rows,
          header,
          ragged: raggedWords(split, kinds, from, choices.firstRowLine),
          expected: choices.cells === undefined || choices.cells === cells,
        };
      })
      .sort((a, b) => rank(b) - rank(a))[0] ?? null
  );
}

/** The first line with the very same cells. */
const firstAlike = (split: readonly (readonly string[])[], at: number): number => {
  const names = JSON.stringify(split[at]);
  return split.findIndex((line) => JSON.stringify(line) === names);
};

/** Rows of as many cells, numbers alone, that stand together above a line of names. */
function sameShapeAbove(
  split: readonly (readonly string[])[],
  kinds: readonly RowKind[],
  namesAt: number,
  cells: number,
): Run['above'] {
  let from = namesAt;
  let rows = 0;
  for (let i = namesAt - 1; i >= 0; i--) {
    const kind = kinds[i];
    if (kind === 'blank') continue;
    if (typeof kind !== 'object' || kind.words > 0 || split[i]?.length !== cells) break;
    from = i;
    rows++;
  }
  return rows === 0 ? null : { from, rows };
}

type RowKind = 'blank' | 'words' | { readonly numbers: number; readonly words: number };

/** A row has at least one number, and no more words than numbers. */
function rowKind(cells: readonly string[], style: NumberStyle): RowKind {
  if (cells.every((cell) => cell === '')) return 'blank';
  let numbers = 0;
  let words = 0;
  for (const cell of cells) {
    if (isAbsent(cell)) continue;
    if (timeForm(cell, style) !== null || unitBehindNumber(cell, style) !== null) numbers++;
    else words++;
  }
  return numbers > 0 && words <= numbers ? { numbers, words } : 'words';
}

function headerAbove(
  split: readonly (readonly string[])[],
  kinds: readonly RowKind[],
  from: number,
  cells: number,
): Header {
  const blank = Array.from({ length: cells }, () => '');
  const none: Header = { namesAt: null, unitsAt: null, names: blank, units: blank, misfit: null };
  // Rows that end with a delimiter have a blank cell behind the last name.
  const endsBlank = split[from]?.at(-1) === '';
  const fits = (line: readonly string[]): boolean =>
    line.length === cells || headerCells(line).length === cells - (endsBlank ? 1 : 0);
  const named = (namesAt: number, unitsAt: number | null): Header => ({
    ...none,
    namesAt,
    unitsAt,
    names: padded(headerCells(split[namesAt] ?? []), cells),
    units: unitsAt === null ? blank : padded(headerCells(split[unitsAt] ?? []), cells),
  });
  const namesAt = nearestNames(split, kinds, from, fits);
  if (namesAt !== undefined) {
    const below = split[namesAt + 1] ?? [];
    const isUnits = namesAt + 1 < from && below.length <= cells && isUnitsLine(headerCells(below));
    return named(namesAt, isUnits ? namesAt + 1 : null);
  }
  const [first, second] = linesAbove(kinds, from);
  if (first === undefined) return none;
  const nearest = split[first] ?? [];
  if (
    second !== undefined &&
    fits(split[second] ?? []) &&
    nearest.length <= cells &&
    isUnitsLine(headerCells(nearest))
  )
    return named(second, first);
  if (fits(nearest)) return named(first, null);
  // Words directly above the rows that are fewer than the cells: names of something else, or commas that mean two things.
  return first === from - 1 && nearest.length < cells
    ? { ...none, misfit: headerCells(nearest).length }
    : none;
}

/** The line above that names quantities of a curve best, the nearest among equals, whatever lies between. */
function nearestNames(
  split: readonly (readonly string[])[],
  kinds: readonly RowKind[],
  from: number,
  fits: (line: readonly string[]) => boolean,
): number | undefined {
  let best: number | undefined;
  let most = 0;
  for (let i = from - 1; i >= 0; i--) {
    const line = split[i] ?? [];
    const weight = kinds[i] === 'words' && fits(line) ? namesWeight(headerCells(line)) : 0;
    if (weight > most) {
      most = weight;
      best = i;
    }
  }
  return best;
}

/** How many cells name a quantity; a guess counts little. */
function namesWeight(names: readonly string[]): number {
  if (isUnitsLine(names)) return 0;
  return names
    .map((name) => nameColumn({ name, unitText: '', largest: 0 }))
    .reduce((sum, { quantity, unit, confidence }) => {
      if (quantity === null) return sum;
      return sum + (confidence === 'guess' && unit !== null ? 0.1 : 1);
    }, 0);
}

function nextFilled(kinds: readonly RowKind[], from: number): number {
  let at = from;
  while (kinds[at] === 'blank') at++;
  return at;
}

/** The two nearest lines above that are not blank, as long as they are words. */
function linesAbove(kinds: readonly RowKind[], from: number): number[] {
  const above: number[] = [];
  for (let i = from - 1; i >= 0 && above.length < 2; i--) {
    if (kinds[i] === 'blank') continue;
    if (kinds[i] !== 'words') break;
    above.push(i);
  }
  return above;
}

/** Without the sign of a comment in front, and without blank cells at the end. */
function headerCells(cells: readonly string[]): string[] {
  const names = cells.map((cell, i) => (i === 0 ? cell.replace(/^(?:#|%|\/\/)\s*/, '') : cell));
  while (names.length > 1 && names.at(-1) === '') names.pop();
  return names;
}

function padded(texts: readonly string[], cells: number): string[] {
  return Array.from({ length: cells }, (_, i) => texts[i] ?? '');
}

/** Every cell a unit, blank or a dash, and at least one a unit. */
function isUnitsLine(cells: readonly string[]): boolean {
  const bare = cells.map((cell) => cell.replace(/^[[({]\s*|\s*[\])}]$/g, ''));
  const known = bare.map((text) => text === '' || isAbsent(text) || unitFromText(text) !== null);
  return known.every(Boolean) && bare.some((text) => unitFromText(text) !== null);
}

/**
 * Rows of the block that the run lies in have more cells than the line above names, or different numbers of cells
 * where nothing names them. With commas between the cells that means commas inside the numbers.
 */
function raggedWords(
  split: readonly (readonly string[])[],
  kinds: readonly RowKind[],
  from: number,
  firstRowLine: number | undefined,
): string | null {
  let start = from;
  if (firstRowLine === undefined)
    for (let i = from - 1; i >= 0 && kinds[i] !== 'words'; i--) if (kinds[i] !== 'blank') start = i;
  const counts = kinds.flatMap((kind, i) =>
    i >= start && typeof kind === 'object' ? [split[i]?.length ?? 0] : [],
  );
  const [above] = linesAbove(kinds, start);
  const names = above === undefined ? 0 : headerCells(split[above] ?? []).length;
  const [fewest, most] = [Math.min(...counts), Math.max(...counts)];
  const endsBlank = split[start]?.at(-1) === '';
  if (names > 1 ? most <= names + (endsBlank ? 1 : 0) : most === fewest) return null;
  return most === fewest
    ? `${counted(most, 'cell')} under ${counted(names, 'name')}`
    : 'the rows have different numbers of cells';
}

const DELIMITER_WORDS: Readonly<Record<ImportDelimiter, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'vertical bars',
  blanks: 'blanks',
};
