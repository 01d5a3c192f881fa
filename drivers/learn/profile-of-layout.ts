/** From a layout and the lines to a whole profile: which fields are numbers, units, states, counters, and what they mean. */
import {
  type Framing,
  type LineCheck,
  READOUT_PROFILE_SCHEMA,
  type ReadoutProfile,
  type ReadoutProfileFile,
  type SerialSettings,
  fieldNamesOf,
  readoutProfile,
} from '../../core/contract/readout-profile.ts';
import { unitFromText } from '../../core/quantity/units.ts';
import { lineSplitter } from '../lines/split-line.ts';
import { statusOfWord } from '../lines/status-words.ts';
import { type Column, columnKind, isSequence, modulusOf } from './column-kind.ts';
import type { Heading } from './find-heading.ts';
import { type LearntQuantity, meaningOfLabel } from './label-words.ts';
import type { Layout } from './layout.ts';
import { type NumberField, isStatusWord, numberFields } from './number-fields.ts';
import { peakColumns } from './peak-column.ts';
import { breaksOff, quantitiesOf, unitOfTime } from './quantity-of-column.ts';
import type { WrittenUnit } from './unit-words.ts';

export interface LearntChannel {
  readonly field: string;
  readonly quantity: LearntQuantity | null;
  /** As the program writes it; null where the readout does not say. */
  readonly unit: string | null;
  /** Said by the readout itself rather than guessed from how the numbers move. */
  readonly isSaid: boolean;
}

export interface LearntProfile {
  readonly profile: ReadoutProfile;
  readonly channels: readonly LearntChannel[];
  /** Fields that hold something unknown that changes: what the layout does not explain. */
  readonly opaqueFields: number;
}

export interface LayoutContext {
  readonly texts: readonly string[];
  readonly framing: Framing;
  readonly check: LineCheck | null;
  readonly heading: Heading | null;
  readonly ignoredLines: readonly string[];
  readonly serial: SerialSettings | null;
  readonly name: string;
}

/** Words that mean overload and error on indicators of every make, so that one seen later is no value either. */
const OVERLOAD_WORDS = ['OL', 'OV', 'OVL', 'OVER', 'OF', 'UL', 'UF', 'OVERLOAD'];
const ERROR_WORDS = ['ER', 'ERR', 'ERROR', 'FAULT', 'FAIL'];

/** Null where the layout has no numbers that change, or splits no lines. */
export function profileOfLayout(layout: Layout, context: LayoutContext): LearntProfile | null {
  const names = fieldNamesOf(layout.format);
  const draft = draftProfile(layout, context, names);
  if (draft === null) return null;
  const split = lineSplitter(layout.format, draft);
  const rows = context.texts.flatMap((text) => {
    const fields = split(text);
    return fields === null ? [] : [fields];
  });
  if (rows.length === 0) return null;
  const columns = names.map((_, index) =>
    columnKind(
      rows.map((row) => (row[index] ?? '').trim()),
      layout.style,
    ),
  );
  const numbers = numberFields(layout, context.heading, names, columns);
  if (numbers.length === 0 || numbers.some(({ index }) => losesSign(columns, rows, index))) return null;
  const sequence = names.findIndex((name, index) => {
    const column = columns[index];
    return (
      column !== undefined &&
      isSequence(column) &&
      !numbers.some((field) => field.index === index && (saysTime(field, name) || isMeasured(field)))
    );
  });
  const measured = withUnitOfPeak(
    numbers.filter(
      (field) => field.index !== sequence && !isIdentityNumber(field, numbers) && !isFlag(field, numbers),
    ),
  );
  if (measured.length === 0) return null;
  const meanings = quantitiesOf(measured);
  const channels: LearntChannel[] = [];
  const channelFiles: ReadoutProfileFile['channels'] = measured.map((field, index) => {
    const meaning = meanings[index] ?? { quantity: null, peak: false, isSaid: false };
    const name = names[field.index] ?? '';
    const unit = field.unit ?? assumedUnit(meaning.quantity, field.column);
    channels.push({
      field: name,
      quantity: meaning.quantity,
      unit: unit?.symbol ?? null,
      isSaid: meaning.isSaid,
    });
    const isInverted = meaning.quantity === 'force' && pointsDown(field.column);
    return {
      field: name,
      // Without a unit a number is no force yet: a person must name it first. Guessing newtons could be wrong fourfold.
      quantity: unit === null ? 'other' : (meaning.quantity ?? 'other'),
      unit: unitFile(field, unit, names),
      ...(unit === null || unit.scale === '1' ? {} : { scale: unit.scale }),
      ...(isInverted ? { sign: 'inverted' as const } : {}),
      ...(field.column.kind === 'clock' ? { written: 'clock' as const } : {}),
      ...(meaning.peak ? { peak: true } : {}),
    };
  });
  const file: ReadoutProfileFile = {
    ...draftFile(layout, context),
    channels: channelFiles,
    words: wordsOf(measured.map((field) => field.column)),
    status: names
      .flatMap((name, index) => {
        const column = columns[index];
        return column?.kind === 'words' ||
          (column?.kind === 'constant' && isStatusWord(column.words[0] ?? ''))
          ? [statusFile(name, column.words)]
          : [];
      })
      .slice(0, 4),
    ...(sequence === -1
      ? {}
      : {
          sequence: {
            field: names[sequence] ?? '',
            modulus: modulusOf(columns[sequence] ?? columnKind([], layout.style)),
          },
        }),
  };
  const checked = readoutProfile.safeParse(file);
  if (!checked.success) return null;
  return {
    profile: checked.data,
    channels,
    opaqueFields: columns.filter((column) => column.kind === 'opaque').length,
  };
}

function draftFile(layout: Layout, context: LayoutContext): Omit<ReadoutProfileFile, 'channels'> {
  return {
    schema: READOUT_PROFILE_SCHEMA,
    name: context.name,
    framing: context.framing,
    format: layout.format,
    decimalSign: layout.style.decimalSign,
    ...(layout.style.groupSign === undefined ? {} : { groupSign: layout.style.groupSign }),
    ...(layout.style.minusInParentheses === true ? { minusInParentheses: true } : {}),
    ...(context.check === null ? {} : { check: context.check }),
    ...(context.serial === null ? {} : { serial: context.serial }),
    ignoredLines: [...context.ignoredLines],
  };
}

/** Enough of a profile for a splitter; null where no profile can hold the layout (a word longer than any label). */
function draftProfile(
  layout: Layout,
  context: LayoutContext,
  names: readonly string[],
): ReadoutProfile | null {
  const checked = readoutProfile.safeParse({
    ...draftFile(layout, context),
    channels: [{ field: names[0] ?? '', quantity: 'other', unit: { kind: 'fixed', unit: '1' } }],
  });
  return checked.success ? checked.data : null;
}

function unitFile(
  field: NumberField,
  unit: WrittenUnit | null,
  names: readonly string[],
): ReadoutProfileFile['channels'][number]['unit'] {
  const symbol = unit?.symbol ?? '1';
  if (field.unitText === null) return { kind: 'fixed', unit: symbol };
  const knownAs = unitFromText(field.unitText)?.symbol;
  const isKnown =
    knownAs === symbol || (knownAs === 'lb' && symbol === 'lbf') || (knownAs === 'kg' && symbol === 'kgf');
  return {
    kind: 'in-line',
    expected: symbol,
    ...(field.unitField === null ? {} : { field: names[field.unitField] ?? '' }),
    ...(isKnown ? {} : { spellings: { [field.unitText.trim()]: symbol } }),
  };
}

/** Only a time may be given a unit that nobody has said: seconds or milliseconds, by its steps. */
function assumedUnit(quantity: LearntQuantity | null, column: Column): WrittenUnit | null {
  if (quantity !== 'time') return null;
  return { symbol: column.kind === 'clock' ? 's' : unitOfTime(column), scale: '1' };
}

/** A sign that comes and goes at the end of the field before is that of the number: this layout would lose it. */
function losesSign(
  columns: readonly Column[],
  rows: readonly (readonly (string | undefined)[])[],
  index: number,
): boolean {
  const before = columns[index - 1];
  if (before === undefined || before.kind === 'number' || before.kind === 'number-unit') return false;
  const signs = rows.map((row) => /(?:^|[^+-])([+-])$/.exec((row[index - 1] ?? '').trim())?.[1] ?? '');
  return signs.includes('+') || (signs.includes('-') && signs.includes(''));
}

function saysTime(field: NumberField, name: string): boolean {
  return (
    /\b(?:t|time|ms|sec|ts)\b/i.test(`${field.label} ${name}`) ||
    field.unit?.symbol === 's' ||
    field.unit?.symbol === 'ms'
  );
}

/** A unit or a whole word says what it is; a counter has neither. A letter before it may be that of a number ("N0042"). */
function isMeasured({ unit, label }: NumberField): boolean {
  return unit !== null || (/[A-Za-z]{2}/.test(label) && meaningOfLabel(label, null).quantity !== null);
}

/** A whole number that never changes, beside others that do: the number of a channel or a station. */
function isIdentityNumber(field: NumberField, all: readonly NumberField[]): boolean {
  return (
    field.column.isConstant &&
    field.column.plainDigits &&
    field.column.decimals === 0 &&
    field.unit === null &&
    meaningOfLabel(field.label, null).quantity === null &&
    // Zero is what rests, a load or a travel before the frame moves: unless it stays so through a whole pull, or others
    // have the units that it lacks.
    (field.column.values.some((value) => value !== 0) ||
      all.some((other) => other !== field && (other.unit !== null || breaksOff(other.column.values)))) &&
    field.column.values.length >= 6 &&
    all.some((other) => other !== field && !other.column.isConstant)
  );
}

/** A bit among the numbers of a whole pull: one digit that takes two values, while a load rises and is gone. */
function isFlag({ column, unit, label, index }: NumberField, all: readonly NumberField[]): boolean {
  return (
    column.plainDigits &&
    column.width === 1 &&
    new Set(column.values).size <= 2 &&
    unit === null &&
    meaningOfLabel(label, null).quantity === null &&
    all.some((other) => other.index !== index && breaksOff(other.column.values))
  );
}

/** "13349, 13350, lbf": a peak memory and the value that it follows have one unit, even where it is written once. */
function withUnitOfPeak(fields: readonly NumberField[]): NumberField[] {
  const pairs = peakColumns(fields.map(({ column }) => column));
  const shared = new Map(
    [...pairs].flatMap(([peak, live]) => [[peak, live] as const, [live, peak] as const]),
  );
  return fields.map((field, index) => {
    const other = fields[shared.get(index) ?? index] ?? field;
    if (field.unit !== null || field.isForeign || other.unit === null) return field;
    return { ...field, unit: other.unit, unitText: other.unitText, unitField: other.unitField };
  });
}

/** The largest deflection is negative: the readout shows tension with a minus. */
function pointsDown({ values }: Column): boolean {
  const numbers = values.filter((value) => !Number.isNaN(value));
  const most = numbers.reduce((largest, value) => Math.max(largest, value), 0);
  const least = numbers.reduce((smallest, value) => Math.min(smallest, value), 0);
  return -least > 10 * Math.max(most, 0) && numbers.filter((value) => value < 0).length > numbers.length / 2;
}

/** Words seen in the place of numbers, where they are not among those that every profile knows. */
function wordsOf(columns: readonly Column[]): { overload: string[]; blank: string[]; error: string[] } {
  const known = statusOfWord({ overload: [], blank: [], error: [] });
  const words = [...new Set(columns.flatMap((column) => column.words))]
    .filter((word) => known(word) === 'malformed')
    .slice(0, 20);
  const isOverload = (word: string): boolean =>
    /^[+-]?(?:o|h{2,}|l{2,}|hi|lo|ul|uf|of|max|full|ovf)/i.test(word);
  const isWord = (word: string): boolean => /^[^\d]{1,20}$/.test(word) && /[A-Za-z]/.test(word);
  return {
    overload: words.filter((word) => isWord(word) && isOverload(word)),
    blank: [],
    error: words.filter((word) => isWord(word) && !isOverload(word)),
  };
}

function statusFile(
  field: string,
  seen: readonly string[],
): NonNullable<ReadoutProfileFile['status']>[number] {
  const lower = (word: string): string => word.toLowerCase();
  const bad = new Set([...OVERLOAD_WORDS, ...ERROR_WORDS].map(lower));
  return {
    field,
    good: seen.filter((word) => word !== '' && word.length <= 40 && !bad.has(lower(word))),
    overload: OVERLOAD_WORDS,
    error: ERROR_WORDS,
    // A state not seen while learning (in motion) must not take the value away.
    othersAreGood: true,
  };
}
