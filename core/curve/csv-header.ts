/** The header of a curve file: each column names its quantity and unit, "force_N", "strain_percent", "Force (kN)". */
import { nearName } from '../near-name.ts';
import { type Dimension, type UnitSymbol, unitFromText } from '../quantity/units.ts';
import type { ChannelQuantity } from './curve.ts';

export interface CsvColumn {
  /** As written in the file. */
  readonly name: string;
  readonly quantity: ChannelQuantity;
  readonly unit: UnitSymbol;
  /** Position of the cell in a row. */
  readonly cell: number;
}

export type CsvDelimiter = ',' | ';' | '\t';

export interface CsvHeader {
  readonly delimiter: CsvDelimiter;
  readonly columns: readonly CsvColumn[];
  /** Columns that no evaluation uses, in words, with the name meant where one is near; said, never dropped in silence. */
  readonly unused: readonly string[];
  readonly cells: number;
}

export type CsvHeaderOutcome =
  | { readonly ok: true; readonly header: CsvHeader }
  | { readonly ok: false; readonly code: string; readonly sentence: string };

/**
 * Columns in one file. A curve keeps one for a quantity, eight at most; whatever else stands beside them is left out. The
 * longest known export of a frame has about sixty, tables of many channels have hundreds.
 */
export const CSV_COLUMNS_MAX = 1_000;

const DIMENSION: Readonly<Record<ChannelQuantity, Dimension>> = {
  time: 'time',
  force: 'force',
  extension: 'length',
  travel: 'length',
  stress: 'stress',
  strain: 'strain',
};

/** Words that stand for a quantity in a header. */
const QUANTITY_WORDS: Readonly<Record<string, ChannelQuantity>> = {
  time: 'time',
  force: 'force',
  load: 'force',
  extension: 'extension',
  travel: 'travel',
  crosshead: 'travel',
  crosshead_travel: 'travel',
  stress: 'stress',
  strain: 'strain',
};

const FORM = 'time_s, force_N, extension_mm (or stress_MPa, strain_percent, travel_mm)';

/** Reads the header line. The delimiter is the tab where there is one, else the semicolon, else the comma. */
export function readCsvHeader(line: string, lineNumber: number): CsvHeaderOutcome {
  const at = `Line ${String(lineNumber)}`;
  const fault = (code: string, sentence: string): CsvHeaderOutcome => ({ ok: false, code, sentence });
  const delimiter: CsvDelimiter = line.includes('\t') ? '\t' : line.includes(';') ? ';' : ',';
  const names = line.split(delimiter).map(unquoted);
  while (names.length > 1 && names.at(-1) === '') names.pop();
  if (names.length > CSV_COLUMNS_MAX)
    return fault(
      'csv-columns-too-many',
      `${at} names ${String(names.length)} columns; at most ${String(CSV_COLUMNS_MAX)} are read; leave the columns that are needed.`,
    );
  if (names.every((name) => name !== '' && Number.isFinite(Number(name.replace(',', '.')))))
    return fault(
      'csv-header-missing',
      `${at} holds numbers where the names of the columns belong; put a header like ${FORM} above them.`,
    );
  const columns: CsvColumn[] = [];
  const unused: string[] = [];
  for (const [cell, name] of names.entries()) {
    const parts = splitName(name);
    if (parts === null) {
      unused.push(unusedWords(name, cell));
      continue;
    }
    const { quantity, unitText } = parts;
    const shown = `"${name.slice(0, 40)}"`;
    if (unitText === '')
      return fault(
        'csv-unit-missing',
        `${at}: the column ${shown} has no unit; name it like ${example(quantity)}.`,
      );
    const unit = unitFromText(unitText);
    if (unit === null)
      return fault(
        'csv-unit-unknown',
        `${at}: the unit "${unitText.slice(0, 20)}" of the column ${shown} is not known; name it like ${example(quantity)}.`,
      );
    if (unit.dimension !== DIMENSION[quantity])
      return fault(
        'csv-unit-wrong',
        `${at}: the column ${shown} has a unit of ${unit.dimension}, but ${quantity} is needed in a unit of ${DIMENSION[quantity]}; name it like ${example(quantity)}.`,
      );
    const twice = columns.find((c) => c.quantity === quantity);
    if (twice !== undefined)
      return fault(
        'csv-column-twice',
        `${at} names ${quantity} twice, as "${twice.name}" and as ${shown}; leave one of them.`,
      );
    columns.push({ name, quantity, unit: unit.symbol as UnitSymbol, cell });
  }
  if (columns.length === 0)
    return fault(
      'csv-no-known-column',
      `${unused.some((words) => words.includes(MEANT)) ? `${unused.join(', ').slice(0, UNUSED_LENGTH_MAX)}. ` : ''}${at} is no header of a curve: none of its columns (${String(names.length)}) is named like ${FORM}; name them so.`,
    );
  return { ok: true, header: { delimiter, columns, unused, cells: names.length } };
}

/** Takes "force_N", "Force (kN)", "force [lbf]" and "force" apart; null where the word names no quantity we know. */
function splitName(name: string): { quantity: ChannelQuantity; unitText: string } | null {
  const bracketed = /^([^()[\]]+?)\s*[([]([^()[\]]*)[)\]]$/.exec(name);
  if (bracketed !== null) {
    const quantity = quantityOf(bracketed[1] ?? '');
    return quantity === null ? null : { quantity, unitText: (bracketed[2] ?? '').trim() };
  }
  const whole = quantityOf(name);
  if (whole !== null) return { quantity: whole, unitText: '' };
  const cut = name.lastIndexOf('_');
  if (cut <= 0) return null;
  const quantity = quantityOf(name.slice(0, cut));
  return quantity === null ? null : { quantity, unitText: name.slice(cut + 1).trim() };
}

const MEANT = ' (name it ';
/** Words about unknown columns in one sentence. */
const UNUSED_LENGTH_MAX = 300;
/** Shorter beginnings of a word are no short form of it. */
const SHORT_FORM_LETTERS_MIN = 3;

/** `"ext_in" (name it extension_in)`. */
function unusedWords(name: string, cell: number): string {
  if (name === '') return `column ${String(cell + 1)} (no name)`;
  const shown = name.slice(0, 40);
  const [, word, unitText] = /^(.+?)(?:_|\s*[([])([^_()[\]]+)[)\]]?$/.exec(name) ?? [];
  const quantity = word === undefined ? null : quantityMeantBy(word);
  const unit = unitText === undefined ? null : unitFromText(unitText.trim());
  return quantity === null || unit?.dimension !== DIMENSION[quantity]
    ? shown
    : `"${shown}"${MEANT}${quantity}_${unitText?.trim() ?? ''})`;
}

/** The quantity whose word begins like this or is misspelt so; null where none or several do. */
function quantityMeantBy(word: string): ChannelQuantity | null {
  const key = word.trim().toLowerCase().replace(/\.$/, '');
  const words = Object.keys(QUANTITY_WORDS);
  const begun = key.length < SHORT_FORM_LETTERS_MIN ? [] : words.filter((known) => known.startsWith(key));
  const quantities = new Set(begun.map((known) => QUANTITY_WORDS[known]));
  const [only] = quantities;
  if (quantities.size === 1 && only !== undefined) return only;
  return quantityOf(nearName(key, words) ?? '');
}

function quantityOf(word: string): ChannelQuantity | null {
  const key = word.trim().toLowerCase().replace(/\s+/g, '_');
  return Object.hasOwn(QUANTITY_WORDS, key) ? (QUANTITY_WORDS[key] ?? null) : null;
}

function example(quantity: ChannelQuantity): string {
  const examples: Readonly<Record<ChannelQuantity, string>> = {
    time: 'time_s',
    force: 'force_N, force_kN, force_lbf, force_kip or force_kgf',
    extension: 'extension_mm or extension_in',
    travel: 'travel_mm or travel_in',
    stress: 'stress_MPa, stress_psi or stress_ksi',
    strain: 'strain_1 or strain_percent',
  };
  return examples[quantity];
}

/** A cell without blanks and without the quotes around it. */
export function unquoted(cell: string): string {
  const text = cell.trim();
  return text.length >= 2 && text.startsWith('"') && text.endsWith('"') ? text.slice(1, -1).trim() : text;
}
